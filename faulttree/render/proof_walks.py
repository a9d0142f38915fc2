"""The walks of a fault step by step, so that a conclusion can be followed back to its readings."""

from collections.abc import Iterable, Iterator

from faulttree.core.bench.suspects import Suspect
from faulttree.core.proof.tree_proof import TreeProof
from faulttree.core.proof.walks import Mode, Passed
from faulttree.core.tree import Measure, WorkOut
from faulttree.render.page import count, wrapped
from faulttree.render.proof_paths import Path, paths_of
from faulttree.render.proof_words import Words, cars_among, cars_of, worth_in_words
from faulttree.render.scale import SIGNS

_NO_BREAK = "\N{NO-BREAK SPACE}"
"""Holds the name of a band together while a line is wrapped."""


def walks_text(proof: TreeProof, suspects: Iterable[Suspect | None], words: Words) -> str:
    """Every walk of some faults that differs from the others, one line feed at the end."""
    texts = (_fault(proof, suspect, words) for suspect in suspects)
    return "\n".join("".join(f"{line}\n" for line in lines) for lines in texts)


def _fault(proof: TreeProof, suspect: Suspect | None, words: Words) -> Iterator[str]:
    paths = paths_of(proof, suspect)
    head = f"{suspect.id}: {words.text(suspect.words)}" if suspect else "healthy cars"
    yield from wrapped(f"{head}: {count(len(paths), 'way')} through {proof.tree.id}", "", "  ")
    for path in paths:
        yield ""
        yield from path_lines(proof, path, words)


def path_lines(proof: TreeProof, path: Path, words: Words) -> Iterator[str]:
    """One walk: what it ends in, which cars go it, its steps with their readings."""
    end = path.ended.end
    where = end.conclusion or f"nowhere: {words.text(end.trouble)}"
    worth = worth_in_words(path.ended.worth, path.ended.group_size)
    yield from wrapped(f"=> {where}: {worth}, {end.minutes:.0f} min", "", "   ")
    yield from wrapped(_cars(proof, path), "   ", "     ")
    first = proof.row(path.walked[0])
    if len({w.row for w in path.walked}) > 1 and any(p.span for p in end.path):
        yield from wrapped(f"readings: {cars_of((first,))}", "   ")
    for number, passed in enumerate(end.path, 1):
        yield from _step(path, passed, words, number)


def _cars(proof: TreeProof, path: Path) -> str:
    """Which cars go this way, and whether the fault is there all the time."""
    everyone = [row for row in proof.bench.rows if row.suspect is path.suspect]
    found: dict[str, list[str]] = {}
    for mode, text in _MODES.items():
        rows = [proof.row(w) for w in path.walked if w.mode is mode]
        if rows:
            where = cars_among(rows, everyone) or "every car"
            found.setdefault(where, []).append(text)
    return "; ".join(f"{' or '.join(modes)}: {where}" for where, modes in found.items())


_MODES = {
    Mode.ABSENT: "no fault there",
    Mode.PRESENT: "fault there",
    Mode.COMES_BACK: "coming and going",
}


def _step(path: Path, passed: Passed, words: Words, number: int) -> Iterator[str]:
    head = f"{passed.step_id}: {words.title(passed.step_id)}"
    yield from wrapped(head, f"{number:>4}  ", " " * 8)
    parts = [words.reading(passed.span, passed.step_id)] if passed.span else []
    if passed.posts is not None:
        parts.append(f"battery {words.volts(passed.posts)}")
    if path.is_away(passed):
        parts.append("the fault is away")
    what = f"{', '.join(parts)}: " if parts else ""
    target = passed.target or "nowhere"
    yield from wrapped(f"{what}{words.text(passed.way)} -> {target}", " " * 6, " " * 8)
    yield from _bands(passed, words)


def _bands(passed: Passed, words: Words) -> Iterator[str]:
    """The bands with their edges; those that the reading may lie in stand in brackets."""
    step = words.tree.steps[passed.step_id]
    judged = passed.judged
    if judged is None or not judged.edges or not isinstance(step, Measure | WorkOut):
        return
    pieces = []
    for index, band in enumerate(step.bands):
        if index:
            pieces.append(f"| {words.value(judged.edges[index - 1].value, passed.step_id)} |")
        name = f"{SIGNS[band.is_]} {words.text(band.name)}"
        pieces.append(f"[{name}]" if index in judged.bands else name)
    together = " ".join(piece.replace(" ", _NO_BREAK) for piece in pieces)
    lines = wrapped(together, " " * 6, " " * 8)
    yield from (line.replace(_NO_BREAK, " ") for line in lines)
