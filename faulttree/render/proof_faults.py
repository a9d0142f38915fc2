"""The table of faults: what each ends in, told once where all its cars end alike."""

from collections.abc import Iterator

from faulttree.core.bench.suspects import Suspect
from faulttree.core.proof.ends import Worth
from faulttree.core.proof.tree_proof import TreeProof
from faulttree.render.page import column, cut, section, wrapped
from faulttree.render.proof_ends import FaultEnds, Reached
from faulttree.render.proof_words import Words, cars_among, worth_in_words

_HEAD = "Every fault, by part: weight, minutes mean/worst, what it ends in"
_NO_COMPLAINT = "never surely shows the complaint"


def fault_lines(proof: TreeProof, ends: tuple[FaultEnds, ...], words: Words) -> Iterator[str]:
    """The table, by part."""
    yield from section(_HEAD, _by_part(proof, ends, words))


def _by_part(proof: TreeProof, ends: tuple[FaultEnds, ...], words: Words) -> Iterator[str]:
    by_part: dict[str, list[tuple[Suspect, FaultEnds]]] = {}
    for each in ends:
        if each.suspect is not None:
            by_part.setdefault(each.suspect.part, []).append((each.suspect, each))
    width = column((each.id for each in ends), 30)
    for part, faults in by_part.items():
        yield from wrapped(words.text(part), "  ")
        for suspect, each in faults:
            yield from _fault(proof, suspect, each, words, width)


def _fault(
    proof: TreeProof, suspect: Suspect, ends: FaultEnds, words: Words, width: int
) -> Iterator[str]:
    minutes = f"{ends.mean_minutes:.0f}/{ends.worst_minutes:.0f}" if ends.rows else "-"
    head = f"    {cut(suspect.id, width):<{width}} {suspect.weight:>4g} {minutes:>6}  "
    if not ends.rows:
        yield from wrapped(_NO_COMPLAINT, head)
    else:
        yield from wrapped(_end(ends.reached[0], words), head)
        yield from _differences(proof, ends, words)
    yield from _outside(ends, words)


def _differences(proof: TreeProof, ends: FaultEnds, words: Words) -> Iterator[str]:
    """What some of the cars reach besides what most do, or in its place."""
    main, rows = ends.reached[0], proof.bench.rows
    everyone = [rows[i] for i in (*ends.rows, *ends.quiet)]

    def line(text: str, some: tuple[int, ...]) -> list[str]:
        where = cars_among((rows[i] for i in some), everyone)
        return _indented(f"{text} ({where})" if where else text)

    if ends.quiet:
        yield from line("no sure complaint", ends.quiet)
    for reached in ends.reached[1:]:
        both = tuple(r for r in reached.rows if r in main.rows)
        alone = tuple(r for r in reached.rows if r not in main.rows)
        for how, some in (("instead", alone), ("or", both)):
            if some:
                yield from line(f"{how} {_end(reached, words)}", some)


def _outside(ends: FaultEnds, words: Words) -> Iterator[str]:
    """Wrong ends of cars that count in no share."""
    for reached in ends.reached:
        if reached.worth is Worth.WRONG and not reached.rows:
            when = "while it comes and goes" if reached.returning else "without the complaint"
            yield from _indented(f"{_end(reached, words)} ({when})")


def _indented(text: str) -> list[str]:
    return wrapped(text, " " * 6, " " * 8)


def _end(reached: Reached, words: Words) -> str:
    return f"{words.text(reached.where)}: {worth_in_words(reached.worth, reached.parts)}"
