"""Where the faults of a proof end up: told once for each fault, and once for each conclusion."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from faulttree.core.bench.suspects import Suspect
from faulttree.core.proof.ends import Walked, Worth
from faulttree.core.proof.tree_proof import TreeProof
from faulttree.core.proof.walks import Mode

WORST_FIRST = (
    Worth.WRONG,
    Worth.FALSE_ALARM,
    Worth.NAMED,
    Worth.UNRESOLVED,
    Worth.STUCK,
    Worth.MISSED,
    Worth.CLEARED,
)
"""What conclusions are worth, in the order they are told: first what may not be."""


@dataclass(frozen=True, slots=True)
class Reached:
    """A conclusion that cars with one fault, or healthy ones, reach.

    Attributes:
        conclusion: the step; empty where the walk leads nowhere.
        trouble: why it leads nowhere.
        worth: what it is worth under the fault.
        parts: parts that it leaves, where it names the fault; 0 otherwise.
        rows: cars that may end so, of those that show the complaint with the fault there; all
            healthy cars.
        quiet: the same of those that do not surely show the complaint.
        returning: the same of all cars while the fault comes and goes at will.
    """

    conclusion: str
    trouble: str
    worth: Worth
    parts: int
    rows: tuple[int, ...]
    quiet: tuple[int, ...]
    returning: tuple[int, ...]

    @property
    def where(self) -> str:
        """The conclusion, or why there is none."""
        return self.conclusion or f"nowhere: {self.trouble}"


@dataclass(frozen=True, slots=True)
class FaultEnds:
    """What becomes of one fault, or of the healthy cars.

    Attributes:
        suspect: the fault; None for healthy cars.
        rows: its cars that show the complaint; all healthy ones.
        quiet: its cars that do not surely show it.
        reached: every conclusion, what most cars reach first.
        mean_minutes, worst_minutes: to the conclusion, over `rows`.
    """

    suspect: Suspect | None
    rows: tuple[int, ...]
    quiet: tuple[int, ...]
    reached: tuple[Reached, ...]
    mean_minutes: float
    worst_minutes: float

    @property
    def id(self) -> str:
        """The fault's id, or that there is none."""
        return self.suspect.id if self.suspect else "healthy"

    @property
    def is_wrong(self) -> bool:
        """Whether some car may end where none may."""
        return any(r.worth.is_wrong for r in self.reached)


@dataclass(frozen=True, slots=True)
class Landing:
    """A conclusion with the faults that may end there.

    Attributes:
        where: the conclusion, or why there is none.
        worth: what it is worth to them.
        share: their cars' share of the weight of all that show the complaint, from 0 to 1.
        faults: their ids.
        is_counted: some of the cars show the complaint with the fault there; others have no share.
    """

    where: str
    worth: Worth
    share: float
    faults: tuple[str, ...]
    is_counted: bool


def ends_of(proof: TreeProof) -> tuple[FaultEnds, ...]:
    """What becomes of the healthy cars and of every fault, in the order of the model."""
    walks: dict[str, list[Walked]] = {}
    for walked in proof.walked:
        suspect = proof.row(walked).suspect
        walks.setdefault(suspect.id if suspect else "", []).append(walked)
    return tuple(_ends_of(proof, s, walks.get(s.id if s else "", [])) for s in _all(proof))


def _all(proof: TreeProof) -> Iterator[Suspect | None]:
    yield None
    yield from proof.bench.suspects


def _ends_of(proof: TreeProof, suspect: Suspect | None, walks: list[Walked]) -> FaultEnds:
    there = [w for w in walks if w.mode is not Mode.COMES_BACK]
    shown = [w for w in there if suspect is None or proof.shows(w)]
    quiet = [w for w in there if suspect is not None and not proof.shows(w)]
    returning = [w for w in walks if w.mode is Mode.COMES_BACK]
    reached = _reached(_by_end(shown), _by_end(quiet), _by_end(returning))
    return FaultEnds(
        suspect,
        tuple(w.row for w in shown),
        tuple(w.row for w in quiet),
        tuple(sorted(reached, key=lambda r: -len(r.rows))),
        sum(w.mean_minutes for w in shown) / (len(shown) or 1),
        max((w.worst_minutes for w in shown), default=0.0),
    )


_Key = tuple[str, str, Worth, int]
"""Conclusion, trouble, worth, and parts left."""
_Rows = dict[_Key, dict[int, None]]
"""Cars by what they end in, each once."""


def _by_end(walks: Iterable[Walked]) -> _Rows:
    found: _Rows = {}
    for walked, ended in ((w, e) for w in walks for e in w.ends):
        key = ended.end.conclusion, ended.end.trouble, ended.worth, ended.group_size
        found.setdefault(key, {})[walked.row] = None
    return found


def _reached(shown: _Rows, quiet: _Rows, returning: _Rows) -> Iterator[Reached]:
    for key in dict.fromkeys((*shown, *quiet, *returning)):
        rows = (tuple(some.get(key, ())) for some in (shown, quiet, returning))
        yield Reached(*key, *rows)


def landings(proof: TreeProof, ends: Iterable[FaultEnds]) -> tuple[Landing, ...]:
    """Every conclusion with the faults that may end there, wrong ones first, then by share.

    Healthy cars count only where a part of them is condemned.
    """
    listed = tuple(ends)
    weigh = _weigher(proof, listed)
    found: dict[tuple[str, Worth], tuple[set[int], dict[str, None]]] = {}
    for each in listed:
        for reached in each.reached:
            if reached.rows or reached.worth.is_wrong:
                rows, faults = found.setdefault((reached.where, reached.worth), (set(), {}))
                rows.update(reached.rows)
                faults[each.id] = None
    rowed = (
        Landing(where, worth, weigh(rows), tuple(faults), bool(rows))
        for (where, worth), (rows, faults) in found.items()
        if worth is not Worth.CLEARED
    )
    return tuple(sorted(rowed, key=lambda r: (WORST_FIRST.index(r.worth), -r.share)))


def _weigher(proof: TreeProof, ends: tuple[FaultEnds, ...]) -> Callable[[Iterable[int]], float]:
    weights = [row.weight for row in proof.bench.rows]
    whole = sum(weights[row] for each in ends for row in each.rows)
    return lambda rows: sum(weights[row] for row in rows) / (whole or 1.0)
