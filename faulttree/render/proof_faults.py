"""The table of faults: what each ends in, told once where all its cars end alike."""

from collections.abc import Iterator

from faulttree.core.bench.suspects import Row, Suspect
from faulttree.core.proof.ends import Worth
from faulttree.core.proof.tree_proof import TreeProof
from faulttree.render.page import column, cut, section, wrapped
from faulttree.render.proof_ends import FaultEnds, Reached
from faulttree.render.proof_words import Words, cars_among, worth_in_words

_HEAD = "Every fault, by the part that is mended: weight, what it ends in, minutes mean/worst"
_NO_COMPLAINT = "its cars never surely show the complaint: counts in no share"


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
    head = f"    {cut(suspect.id, width):<{width}} {suspect.weight:>4g}  "
    if not ends.rows:
        yield from wrapped(_NO_COMPLAINT, head)
    else:
        main = ends.reached[0]
        text = f"{words.text(main.where)}: {worth_in_words(main.worth, main.parts)}"
        minutes = f"{ends.mean_minutes:.0f}/{ends.worst_minutes:.0f}"
        lines = wrapped(f"{text}  {minutes}".replace("  ", " \N{NO-BREAK SPACE}"), head)
        yield from (line.replace("\N{NO-BREAK SPACE}", " ") for line in lines)
        yield from _differences(proof, ends, words)
    yield from _outside(ends, words)


def _differences(proof: TreeProof, ends: FaultEnds, words: Words) -> Iterator[str]:
    """What some of the cars reach besides what most do, or in its place."""
    main, rows = ends.reached[0], proof.bench.rows
    everyone = [rows[i] for i in (*ends.rows, *ends.quiet)]
    if ends.quiet:
        quiet = _cars(ends.quiet, everyone, proof)
        yield from wrapped(f"{quiet}: does not surely show the complaint", "      ", " " * 8)
    for reached in ends.reached[1:]:
        both = tuple(r for r in reached.rows if r in main.rows)
        alone = tuple(r for r in reached.rows if r not in main.rows)
        for how, some in (("instead", alone), ("or", both)):
            if some:
                where = _cars(some, everyone, proof)
                yield from wrapped(f"{where}: {how} {_end(reached, words)}", "      ", " " * 8)


def _cars(some: tuple[int, ...], everyone: list[Row], proof: TreeProof) -> str:
    return cars_among((proof.bench.rows[i] for i in some), everyone) or "all of them"


def _outside(ends: FaultEnds, words: Words) -> Iterator[str]:
    """Wrong ends of cars that count in no share."""
    for reached in ends.reached:
        if reached.worth is not Worth.WRONG or reached.rows:
            continue
        when = "when it comes and goes" if reached.returning else "without the complaint"
        yield from wrapped(f"{when}: {_end(reached, words)}", "      ", " " * 8)


def _end(reached: Reached, words: Words) -> str:
    return f"{words.text(reached.where)}, {worth_in_words(reached.worth, reached.parts)}"
