"""A draft tree and its bench sheet, made of an author's documents and written for him to finish."""

import copy
import json
import os
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from faulttree.core.advice.draft import CannotDraft, Draft, DraftStep
from faulttree.core.checks import check_tree
from faulttree.core.checks.bench import check_bench
from faulttree.core.checks.finding import DocumentPath, Finding
from faulttree.core.problem import FileProblems
from faulttree.core.tree import AGAIN
from faulttree.files.benches import OnBench
from faulttree.files.beside import find_beside
from faulttree.files.documents import DocumentError, bench_from_bytes, check_bytes, tree_from_bytes
from faulttree.files.yaml_source import parse_yaml
from faulttree.files.yaml_writer import yaml_bytes

VERSION = "0.1.0"
CHANGE = "Draft by least expected minutes."
_LONGEST_ID, _LONGEST_LINE = 60, 60
_MORE = "-draft"
_TRIES = 4
"""Rounds of taking out what nothing uses; one thing taken out may leave another unused."""

Data = dict[str, Any]
"""A document as it is written: maps, lists, scalars."""


@dataclass(frozen=True, slots=True)
class Written:
    """What was written.

    Attributes:
        paths: the files, the tree first.
        warnings: what is left to look at in the tree and its bench sheet.
    """

    paths: tuple[Path, ...]
    warnings: tuple[FileProblems, ...]


def files_of_draft(path: Path) -> tuple[Path, Path]:
    """Where a draft tree and its bench sheet go.

    Raises:
        CannotDraft: one of them is there already, or the name is that of no YAML file.
    """
    if path.suffix not in (".yaml", ".yml"):
        raise CannotDraft(f"{path} would not be found as a tree: let its name end in .yaml.")
    found = path, path.with_name(f"{path.stem}-bench{path.suffix}")
    _must_be_new(found)
    return found


def write_draft(opened: OnBench, draft: Draft, path: Path, date: str) -> Written:
    """Write a draft tree and its bench sheet, and the circuit model where it is not beside them.

    Args:
        opened: the author's documents.
        draft: the tree in outline.
        path: file of the draft.
        date: today, year first.

    Raises:
        CannotDraft: a file is there already, or the draft would have errors.
        OSError: a file cannot be written.
    """
    tree_path, bench_path = files_of_draft(path)
    new_id = opened.tree.document.id[: _LONGEST_ID - len(_MORE)].rstrip("-") + _MORE
    tree_data = _tree(_read(opened.tree.data), draft, new_id, date)
    tree = yaml_bytes(_tidied(tree_data, _tree_findings, ("unused-need",)))
    warnings = [_without_errors(check_bytes(tree, str(tree_path)))]
    document = tree_from_bytes(tree, str(tree_path)).document

    def findings(data: bytes) -> list[Finding]:
        sheet = bench_from_bytes(data, str(bench_path)).document
        return check_bench(sheet, document, opened.circuit.document)

    bench_data = _bench(_read(opened.sheet.data), draft, new_id)
    unused = ("unknown-point", "unknown-access", "unused-lead")
    bench = yaml_bytes(_tidied(bench_data, findings, unused))
    try:
        loaded = bench_from_bytes(bench, str(bench_path), document, opened.circuit.document)
    except DocumentError as error:
        _without_errors(error.problems)
        raise
    warnings.append(loaded.problems)
    contents = {tree_path: tree, bench_path: bench}
    tree_path.parent.mkdir(parents=True, exist_ok=True)
    if isinstance(find_beside(tree_path, "circuit", opened.circuit.document.id), Finding):
        contents[tree_path.with_name(f"{tree_path.stem}-circuit.yaml")] = opened.circuit.data
    _must_be_new(contents)
    for each, data in contents.items():
        _write_new(each, data)
    return Written(tuple(contents), tuple(warnings))


def _must_be_new(paths: Iterable[Path]) -> None:
    for path in paths:
        if path.exists():
            raise CannotDraft(f"{path} is there already and is not overwritten: name another file.")


def _read(data: bytes) -> Data:
    read = parse_yaml(data).data
    assert isinstance(read, dict)
    return copy.deepcopy(read)


def _tree(author: Data, draft: Draft, new_id: str, date: str) -> Data:
    steps = author["steps"]
    kept = {n for n in draft.conclusions if steps[n]["result"] == "unresolved"}
    made: Data = {
        name: _test(steps[step.of], step, draft, kept) for name, step in draft.steps.items()
    }
    made |= {name: _verdict(steps[name], name, draft, kept) for name in draft.conclusions}
    made |= {name: _open_end(parts) for name, parts in draft.open_ends.items()}
    made[draft.unsettled] = _UNSETTLED
    change = {"version": VERSION, "date": date, "text": CHANGE}
    head = author | {"id": new_id, "version": VERSION, "changes": [change]}
    told = json.dumps(made)
    sources = {name: text for name, text in author.get("sources", {}).items() if name in told}
    return {
        **{key: value for key, value in head.items() if key not in ("sources", "start", "steps")},
        **({"sources": sources} if sources else {}),
        "start": draft.start,
        "steps": made,
    }


def _test(author: Data, step: DraftStep, draft: Draft, kept: set[str]) -> Data:
    made = copy.deepcopy(author)
    made.pop("other-test", None)
    for each in made.get("bands") or made["outcomes"]:
        each["go"] = step.go[each["name"]]
    if step.of in draft.named:
        made.setdefault("as", step.of)
    made["cannot"] = _exit(made["cannot"], draft, kept)
    if step.no_reading is not None:
        made["implausible"]["go"] = step.no_reading
    elif made["implausible"]["go"] not in (AGAIN, *kept):
        made["implausible"]["go"] = draft.unsettled
    return made


def _exit(author: Data, draft: Draft, kept: set[str]) -> Data:
    """An exit; where it leads elsewhere now, its advice no longer holds."""
    return author if author["go"] in kept else {"go": draft.unsettled}


def _verdict(author: Data, name: str, draft: Draft, kept: set[str]) -> Data:
    made = copy.deepcopy(author)
    if "prove" in made:
        made["prove"]["fails"] = _exit(made["prove"]["fails"], draft, kept)
    if draft.evidence[name]:
        made["evidence"] = list(draft.evidence[name])
    else:
        made.pop("evidence", None)
    return made


_UNSETTLED: Data = {
    "kind": "conclude",
    "title": "Not settled by these tests",
    "result": "unresolved",
    "finding": "A test could not be done, or its result fits none of the faults that were left.",
    "next": "Look at the readings together and at the wiring diagram.",
}


def _open_end(parts: Iterable[str]) -> Data:
    listed = list(parts)
    if len(listed) == 1:
        finding = f"What is left: {listed[0]}. No one verdict names all that may be wrong with it."
    else:
        finding = f"What is left, and no test of this tree tells them apart: {'; '.join(listed)}."
    title = f"Left: {' or '.join(listed)}"
    return {
        "kind": "conclude",
        "title": title if len(title) <= _LONGEST_LINE else f"{len(listed)} parts are left",
        "result": "unresolved",
        "finding": finding[:2000],
        "next": "Find a test that tells them apart, or mend the one that is quickest to try.",
    }


def _bench(author: Data, draft: Draft, new_id: str) -> Data:
    tests = author["tests"]
    read = {name: step for name, step in draft.steps.items() if step.of in tests}
    made = author | {
        "id": f"{new_id[: _LONGEST_ID - 6].rstrip('-')}-bench",
        "version": VERSION,
        "tree": new_id,
        "tests": {name: copy.deepcopy(tests[step.of]) for name, step in read.items()},
        "verdicts": {n: v for n, v in author["verdicts"].items() if n in draft.conclusions},
    }
    made.pop("fits", None)
    return made


def _tree_findings(data: bytes) -> list[Finding]:
    _without_errors(check_bytes(data, "draft"))
    return check_tree(tree_from_bytes(data, "draft").document)


def _without_errors(problems: FileProblems) -> FileProblems:
    first = next((p for p in problems.problems if p.severity == "error"), None)
    if first is not None:
        raise CannotDraft(
            f"The draft would have an error, so nothing is written: {first.message}. {first.help}"
        )
    return problems


def _tidied(data: Data, find: Callable[[bytes], list[Finding]], rules: tuple[str, ...]) -> Data:
    """The document without the entries that some rules find to be of no use."""
    for _ in range(_TRIES):
        paths = [f.path for f in find(yaml_bytes(data)) if f.check in rules]
        entries = [path for path in paths if len(path) > 1 and _holds(data, path)]
        if not entries:
            break
        for path in entries:
            _take_out(data, path)
    return data


def _holds(data: Any, path: DocumentPath) -> bool:
    for key in path:
        if not isinstance(data, Mapping) or key not in data:
            return False
        data = data[key]
    return True


def _take_out(data: Data, path: DocumentPath) -> None:
    """Take out an entry, and the map that held it if that is empty then."""
    *above, key = path
    holder: Any = data
    for each in above:
        holder = holder[each]
    del holder[key]
    if not holder and len(above) > 0:
        _take_out(data, tuple(above))


def _write_new(path: Path, data: bytes) -> None:
    """Write a file whole or not at all, and only where there is none."""
    unfinished = path.with_name(f".{path.name}.{os.getpid()}")
    unfinished.write_bytes(data)
    try:
        os.link(unfinished, path)
    except FileExistsError:
        raise CannotDraft(f"{path} is there already and is not overwritten.") from None
    finally:
        unfinished.unlink()
