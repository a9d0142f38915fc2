"""Problems as an author reads them: what, where, the source line with a mark, how to mend it."""

from collections.abc import Iterable, Iterator

from faulttree.core.problem import FileProblems, Problem
from faulttree.render.plain_text import safe, safe_line

_WIDEST = 100


def problems_as_text(files: Iterable[FileProblems]) -> str:
    """All problems of all files, each with its place; empty when there are none."""
    return "".join(_one(file, problem) for file in files for problem in file.problems)


def summary(files: Iterable[FileProblems]) -> str:
    """How many files were looked at and what was found, in one line."""
    listed = list(files)
    errors = sum(p.severity == "error" for f in listed for p in f.problems)
    warnings = sum(p.severity == "warning" for f in listed for p in f.problems)
    found = f"{_count(errors, 'error')}, {_count(warnings, 'warning')}"
    return f"{_count(len(listed), 'file')} checked: {found}"


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


def _one(file: FileProblems, problem: Problem) -> str:
    lines = [f"{problem.severity}[{problem.check}]: {safe_line(problem.message)}"]
    lines.append(f"  --> {safe_line(file.path)}{_place(problem)}")
    lines.extend(_source_lines(file, problem))
    lines.extend(
        f"   also {safe_line(file.path)}:{p.line}:{p.column} {safe_line(p.label)}"
        for p in problem.also
    )
    if problem.help:
        lines.append(f"   = help: {safe_line(problem.help)}")
    return "\n".join(lines) + "\n\n"


def _place(problem: Problem) -> str:
    return f":{problem.line}:{problem.column}" if problem.line else ""


def _source_lines(file: FileProblems, problem: Problem) -> Iterator[str]:
    text = file.text.split("\n")
    if not 0 < problem.line <= len(text):
        return
    line = safe(text[problem.line - 1]).replace("\t", " ")
    start = max(0, problem.column - 1 - _WIDEST // 2) if len(line) > _WIDEST else 0
    shown = line[start : start + _WIDEST]
    number = str(problem.line)
    margin = " " * len(number)
    mark_at = max(0, problem.column - 1 - start)
    mark = "^" * max(1, min(problem.length, len(shown) - mark_at))
    yield f" {margin} |"
    yield f" {number} | {shown}"
    yield f" {margin} | {' ' * mark_at}{mark}"
