"""How well a tree does, in the terms of testability.

Fault detection, fault isolation, ambiguity group size and false alarm are the terms of IEEE Std
1522-2004 and MIL-STD-2165. The formulas are our own, so that they can be worked out without the
standards: every share is by weight over all cars (fault, form, supply) that surely show the
complaint, and a car counts for a measure only when every path that it may take does.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from faulttree.core.bench.suspects import Suspect
from faulttree.core.proof.ends import Walked, Worth
from faulttree.core.proof.tree_proof import TreeProof
from faulttree.core.proof.walks import Mode


@dataclass(frozen=True, slots=True)
class Measures:
    """The figures of a proof; shares from 0 to 1.

    Attributes:
        faults: suspects in the model.
        cars: cars with a fault that were walked, each form at each supply.
        quiet: those that do not surely show the complaint; they count in no share.
        detected: share that ends in a verdict, by weight (fault detection).
        isolated: share that ends in a verdict on one part (fault isolation to one).
        isolated_to: group size to the share isolated to so many parts or fewer.
        isolated_faults: suspects isolated to one part in every car that shows the complaint.
        group_size: mean number of parts a right verdict leaves.
        wrong: share with a wrong conclusion; it may only be 0.
        undetected, unresolved: share that may end in no fault found, in cannot tell.
        mean_minutes, worst_minutes: to the conclusion.
        returning: share of the intermittent ones that a walk can isolate while they come and go,
            and never ends in a wrong verdict; None where none is intermittent.
        false_alarms: healthy cars with a part condemned, of how many.
    """

    faults: int
    cars: int
    quiet: int
    detected: float
    isolated: float
    isolated_to: tuple[tuple[int, float], ...]
    isolated_faults: int
    group_size: float
    wrong: float
    undetected: float
    unresolved: float
    mean_minutes: float
    worst_minutes: float
    returning: float | None
    false_alarms: tuple[int, int]


def measures_of(proof: TreeProof) -> Measures:
    """The figures of a proof."""
    ill = [w for w in proof.walked if proof.row(w).suspect is not None]
    cars = [w for w in ill if w.mode is Mode.PRESENT]
    shown = [w for w in cars if proof.shows(w)]
    back = [w for w in ill if w.mode is Mode.COMES_BACK and proof.shows(w)]
    healthy = [w for w in proof.walked if proof.row(w).suspect is None]
    mean = _mean(proof, shown)
    sizes = sorted({w.group_size for w in shown} - {0})
    named = [w for w in shown if w.group_size]
    return Measures(
        faults=len(proof.bench.suspects),
        cars=len(cars),
        quiet=len(cars) - len(shown),
        detected=mean(lambda w: w.worst is Worth.NAMED),
        isolated=mean(lambda w: w.is_isolated),
        isolated_to=tuple((n, mean(lambda w, n=n: 0 < w.group_size <= n)) for n in sizes),  # type: ignore[misc]
        isolated_faults=sum(_is_isolated(proof, s) for s in proof.bench.suspects),
        group_size=_mean(proof, named)(lambda w: w.group_size),
        wrong=mean(lambda w: any(e.worth.is_wrong for e in w.ends)),
        undetected=mean(lambda w: any(e.worth is Worth.MISSED for e in w.ends)),
        unresolved=mean(lambda w: any(e.worth in _OPEN for e in w.ends)),
        mean_minutes=mean(lambda w: w.mean_minutes),
        worst_minutes=max((w.worst_minutes for w in shown), default=0.0),
        returning=_mean(proof, back)(_can_be_isolated) if back else None,
        false_alarms=(sum(w.worst is Worth.FALSE_ALARM for w in healthy), len(healthy)),
    )


_OPEN = (Worth.UNRESOLVED, Worth.STUCK)


def holds_up(proof: TreeProof, measures: Measures, wanted: float) -> bool:
    """Whether there is no wrong conclusion, and the isolation that the bench sheet wants."""
    return not proof.wrong and measures.isolated >= wanted - 1e-12


def _can_be_isolated(walked: Walked) -> bool:
    """A fault that is away may always be missed; it must be found while it is there."""
    is_named = any(e.worth is Worth.NAMED and e.group_size == 1 for e in walked.ends)
    return is_named and not any(e.worth.is_wrong for e in walked.ends)


def _is_isolated(proof: TreeProof, suspect: Suspect) -> bool:
    walks = [w for w in proof.of(suspect, Mode.PRESENT) if proof.shows(w)]
    return bool(walks) and all(w.is_isolated for w in walks)


def _mean(
    proof: TreeProof, walks: Iterable[Walked]
) -> Callable[[Callable[[Walked], float]], float]:
    """Means over cars, by weight; that of what is so or not is its share."""
    of_all = [(w, proof.row(w).weight) for w in walks]
    whole = sum(weight for _, weight in of_all) or 1.0
    return lambda value: sum(weight * value(w) for w, weight in of_all) / whole
