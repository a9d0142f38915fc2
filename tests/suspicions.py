"""What is suspect, made up for tests: shares are given, not worked out."""

from faulttree.core.bench.suspects import Form, Suspect
from faulttree.core.circuit.faults import Comes
from faulttree.core.suspects.along import Along, Reach
from faulttree.core.suspects.by_part import by_part
from faulttree.core.suspects.evidence import Read
from faulttree.core.suspects.explain import Speaks
from faulttree.core.suspects.ranking import Ranked, Suspicion, Together
from faulttree.core.suspects.shares import share_of
from faulttree.core.suspects.suspected import Suspected


def ranked(
    name: str,
    now: float,
    before: float,
    prior: float,
    part: str = "",
    speaks: tuple[tuple[int, float], ...] = (),
    comes: bool = False,
) -> Ranked:
    """A suspect; `name` is element and fault, as `lamp.open`; `speaks` are reading and times."""
    element, _, fault = name.partition(".")
    suspect = Suspect(
        name,
        part or element,
        f"{element}: {fault}",
        1.0,
        Comes("random", 0.3) if comes else None,
        (Form(),),
    )
    return Ranked(suspect, now, before, prior, tuple(Speaks(r, t) for r, t in speaks))


def suspicion(
    *suspects: Ranked,
    none: tuple[float, float] = (0.0, 0.0),
    pairs: tuple[tuple[int, int, float, float], ...] = (),
    reads: tuple[Read, ...] = (),
) -> Suspicion:
    """Suspects, likeliest first; `pairs` are places of two, that both are there, and before."""
    together = tuple(
        Together(suspects[a].suspect, suspects[b].suspect, share, before)
        for a, b, share, before in pairs
    )
    return Suspicion(reads, suspects, *none, together)


def suspected(found: Suspicion, *strands: tuple[tuple[str, ...], ...]) -> Suspected:
    """The same by part and along a circuit; a strand has the elements of each of its stretches.

    Nodes are called by letters, in the order of the stretches.
    """
    letters = iter("abcdefghijklmnopqrstuvwxyz")
    told, placed = [], set()
    for strand in strands:
        start, reaches = next(letters), []
        for elements in strand:
            end = next(letters)
            ids = {
                each.suspect.id
                for each in found.ranked
                if each.suspect.id.partition(".")[0] in elements
            }
            placed |= ids
            reaches.append(Reach(start, end, share_of(found, ids), elements))
            start = end
        told.append(tuple(reaches))
    aside = tuple(r.suspect.id for r in found.ranked if r.suspect.id not in placed)
    names = {letter: f"point {letter}" for letter in "abcdefghijklmnopqrstuvwxyz"}
    elements = {e: f"the {e}" for strand in strands for reach in strand for e in reach}
    return Suspected(found, by_part(found), Along(tuple(told), aside), names, elements, {})
