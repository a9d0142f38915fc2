"""What a walk has recorded, as evidence: every reading that stands, and how the complaint was."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from faulttree.core.bench.fitted import Fitted, after
from faulttree.core.suspects.hypotheses import Sighting, Stretch
from faulttree.core.tree import Measure, Observe
from faulttree.core.uncertain import Uncertain
from faulttree.core.walk.events import (
    ActionDone,
    Complaint,
    ComplaintChanged,
    Event,
    Observed,
    ReadingTaken,
    RepairChosen,
)
from faulttree.core.walk.judge import value_of
from faulttree.core.walk.state import WalkState


@dataclass(frozen=True, slots=True)
class Read:
    """One recorded reading or observation.

    Attributes:
        seq: its event.
        step_id, fitted: where, and what was fitted to the car.
        value: the reading with its error [SI]; None for an observation.
        outcome: what was seen; empty for a reading.
        sighting: whether the complaint showed.
        stretch: number of the stretch it belongs to, counted from 0.
    """

    seq: int
    step_id: str
    fitted: Fitted
    value: Uncertain | None
    outcome: str
    sighting: Sighting
    stretch: int


def reads_of(state: WalkState) -> tuple[Read, ...]:
    """Everything read or seen that stands, in the order it was recorded.

    What was withdrawn or changed, was implausible, or is none of the outcomes, is left out. A step
    that could not be done is no evidence, nor is anything read after a repair. Readings are of one
    stretch while the complaint shows or stays away without a break; where nobody said how it was,
    each is a stretch of its own. A changed answer is of the stretch in which it was changed, and of
    what was fitted when it was first given.
    """
    return tuple(_reads(state))


def stretches_of(reads: tuple[Read, ...]) -> tuple[Stretch, ...]:
    """The stretches, with readings by their place in `reads`."""
    found: dict[int, list[int]] = {}
    for index, read in enumerate(reads):
        found.setdefault(read.stretch, []).append(index)
    return tuple(Stretch(reads[i[0]].sighting, tuple(i)) for i in found.values())


def sighting_of(complaint: Complaint) -> Sighting:
    """What a recorded state of the complaint tells."""
    if complaint.shows:
        return Sighting.PRESENT
    return Sighting.ABSENT if complaint is Complaint.ABSENT else Sighting.UNKNOWN


def _reads(state: WalkState) -> Iterator[Read]:
    fitted, first, repaired = _fitted_before(state), _first_given(state), _repaired(state)
    stretch, before = -1, None
    for event in _standing(state):
        if isinstance(event, ComplaintChanged):
            before = None
        elif isinstance(event, ReadingTaken | Observed) and _counts(state, event):
            if first[event.seq] > repaired:
                continue  # it tells of another car
            sighting = sighting_of(event.complaint)
            if sighting is Sighting.UNKNOWN or sighting is not before:
                stretch += 1
            before = sighting
            value = value_of(state, event.seq) if isinstance(event, ReadingTaken) else None
            outcome = (event.outcome or "") if isinstance(event, Observed) else ""
            there = fitted[event.seq]
            yield Read(event.seq, event.step, there, value, outcome, sighting, stretch)


def _standing(state: WalkState) -> Iterator[Event]:
    return (event for event in state.events if state.stands(event.seq))


def _fitted_before(state: WalkState) -> dict[int, Fitted]:
    """What was fitted when each event that stands was recorded; a changed answer, when it was first
    given."""
    first = _first_given(state)
    found: dict[int, Fitted] = {}
    fitted: Fitted = frozenset()
    for event in sorted(_standing(state), key=lambda e: first[e.seq]):
        found[event.seq] = fitted
        if isinstance(event, ActionDone):
            fitted = after(state.tree, event.step, fitted)
    return found


def _first_given(state: WalkState) -> dict[int, int]:
    """Event to the one that first gave what it changed; to itself where it changed nothing."""
    first: dict[int, int] = {}
    for event in state.events:
        replaced = getattr(event, "replaces", None)
        first[event.seq] = event.seq if replaced is None else first.get(replaced, event.seq)
    return first


def _repaired(state: WalkState) -> float:
    """The event of the first repair that was made; infinite before one is."""
    made = (e.seq for e in _standing(state) if isinstance(e, RepairChosen) and e.repair is not None)
    return next(made, math.inf)


def _counts(state: WalkState, event: ReadingTaken | Observed) -> bool:
    step = state.tree.steps.get(event.step)
    if isinstance(event, Observed):
        return isinstance(step, Observe) and any(o.name == event.outcome for o in step.outcomes)
    is_own = event.slot == "step" and not event.kept_though_implausible
    return is_own and isinstance(step, Measure)
