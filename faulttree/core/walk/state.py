"""The state of a walk, folded from its events. The same events always give the same state."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeGuard

from faulttree.core.expression_values import REFRIGERANT, Values, with_refrigerant
from faulttree.core.instruments import Instrument, InstrumentClass
from faulttree.core.tree import BATTERY_VOLTAGE, Measure, Tree, WorkOut
from faulttree.core.uncertain import Uncertain, exactly
from faulttree.core.units import UnitSystem
from faulttree.core.usual_instruments import one_per_class
from faulttree.core.vehicle import VehicleSheet
from faulttree.core.walk.events import (
    ActionDone,
    Answer,
    BandDecided,
    Closed,
    Complaint,
    ComplaintChanged,
    Concluded,
    CycleRun,
    DetailsChanged,
    Event,
    InstrumentChosen,
    Intake,
    OtherTestTaken,
    ProofGiven,
    ReadingTaken,
    RepairChosen,
    Started,
    TriesCounted,
    VehicleDataGiven,
    WentBack,
    WorkedOut,
)

Undoable = Answer | BandDecided | OtherTestTaken | Concluded | ProofGiven | RepairChosen | CycleRun
"""Events that going back withdraws."""


@dataclass(frozen=True)
class WalkState:
    """What is known after some events.

    Attributes:
        tree: the tree walked, as it was when the case began.
        sheet: the vehicle sheet, if there is one.
        events: everything recorded, in order.
        withdrawn: events that were gone back on.
        replaced: answer to the answer that changed it; both still stand in `events`.
        answers: the answer in force for each step.
        readings: every reading and worked-out value by event, with the instrument it was read on.
        latest: name to the event that last gave it a value.
        given: vehicle data told during the walk.
        instruments: the instrument in use of each class.
        complaint: whether the complaint shows itself now.
        tries: how often it showed before the repair, as last counted.
        decisions: what was decided for an answer that was too close to call.
        concluded, proofs, repairs: by step.
        cycles: proving-run cycles by step, in order.
        closed: set when the case is finished.
    """

    tree: Tree
    sheet: VehicleSheet | None
    events: tuple[Event, ...]
    withdrawn: frozenset[int]
    replaced: Mapping[int, int]
    answers: Mapping[str, Answer]
    readings: Mapping[int, tuple[ReadingTaken | WorkedOut, Instrument | None]]
    latest: Mapping[str, int]
    given: Mapping[str, VehicleDataGiven]
    instruments: Mapping[InstrumentClass, Instrument]
    complaint: ComplaintChanged
    tries: TriesCounted | None
    decisions: Mapping[int, BandDecided | OtherTestTaken]
    concluded: Mapping[str, Concluded]
    proofs: Mapping[str, ProofGiven]
    repairs: Mapping[str, RepairChosen]
    cycles: Mapping[str, tuple[CycleRun, ...]]
    fitted: Mapping[str, str]
    closed: Closed | None

    @cached_property
    def started(self) -> Started | None:
        """The first event, with the intake and what the case pins."""
        first = self.events[0] if self.events else None
        return first if isinstance(first, Started) else None

    @cached_property
    def intake(self) -> Intake:
        """What is known of the car and its owner, as last told."""
        told = (e.intake for e in reversed(self.events) if isinstance(e, DetailsChanged))
        first = self.started.intake if self.started else Intake()
        return next(told, first)

    @property
    def units(self) -> UnitSystem:
        """The units the case was begun in."""
        return self.started.units if self.started else UnitSystem.METRIC

    @cached_property
    def vehicle_values(self) -> Mapping[str, Uncertain]:
        """Values of the vehicle sheet and those told during the walk [SI]."""
        found: dict[str, Uncertain] = {}
        for name, need in self.tree.needs.values.items():
            told = self.given.get(name)
            if told is not None:
                if told.value is not None:
                    found[name] = exactly(told.value)
            elif self.sheet and name in self.sheet.values:
                found[name] = self.sheet.values[name].evaluator(need.quantity, {})({})
        return found

    @cached_property
    def vehicle_data(self) -> Values:
        """The same with the refrigerant of the car, for functions that go by it."""
        return with_refrigerant(self.vehicle_values, self.fact(REFRIGERANT))

    def fact(self, name: str) -> str | None:
        """A word of the vehicle sheet that the tree asks for, as last told; None if not known."""
        if name not in self.tree.needs.facts:
            return None
        told = self.given.get(name)
        if told is not None:
            return told.text
        return self.sheet.facts.get(name) if self.sheet else None

    def stands(self, seq: int) -> bool:
        """Whether an event was neither withdrawn nor replaced."""
        return seq not in self.withdrawn and seq not in self.replaced

    def in_force(self, seq: int) -> int:
        """The event that stands for `seq` today: itself, or the last answer that changed it."""
        while seq in self.replaced:
            seq = self.replaced[seq]
        return seq

    def last_undoable(self) -> Undoable | None:
        """What going back would withdraw."""
        for event in reversed(self.events):
            if event.seq not in self.withdrawn and _is_undoable(event):
                return event
        return None


def fold(tree: Tree, sheet: VehicleSheet | None, events: Sequence[Event]) -> WalkState:
    """The state after `events`.

    Args:
        tree: the tree the case pins.
        sheet: the vehicle sheet the case pins.
        events: in the order recorded; `seq` rises.
    """
    withdrawn = frozenset(e.answer for e in events if isinstance(e, WentBack))
    effective = [e for e in events if e.seq not in withdrawn]
    replaced = {
        e.replaces: e.seq for e in effective if isinstance(e, Answer) and e.replaces is not None
    }
    in_force = [e for e in effective if e.seq not in replaced]
    return WalkState(
        tree=tree,
        sheet=sheet,
        events=tuple(events),
        withdrawn=withdrawn,
        replaced=replaced,
        answers={e.step: e for e in in_force if _answers_step(e)},
        readings=_readings(events),
        latest=dict(_names_given(tree, in_force)),
        given={e.name: e for e in events if isinstance(e, VehicleDataGiven)},
        instruments=_instruments(events),
        complaint=_complaint(events),
        tries=_tries(events),
        decisions={e.answer: e for e in in_force if isinstance(e, BandDecided | OtherTestTaken)},
        concluded={e.step: e for e in in_force if isinstance(e, Concluded)},
        proofs={e.step: e for e in in_force if isinstance(e, ProofGiven)},
        repairs={e.step: e for e in in_force if isinstance(e, RepairChosen)},
        cycles=_cycles(in_force),
        fitted=_fitted(tree, in_force),
        closed=next((e for e in reversed(events) if isinstance(e, Closed)), None),
    )


def _is_undoable(event: Event) -> TypeGuard[Undoable]:
    return isinstance(event, Undoable) and not _is_side_reading(event)


def _answers_step(event: Event) -> TypeGuard[Answer]:
    return isinstance(event, Answer) and not _is_side_reading(event)


def _is_side_reading(event: Event) -> bool:
    """A battery voltage that stands beside the answer to a step."""
    return isinstance(event, ReadingTaken) and event.slot != "step"


def _readings(
    events: Iterable[Event],
) -> dict[int, tuple[ReadingTaken | WorkedOut, Instrument | None]]:
    known: dict[str, Instrument] = {i.id: i for i in one_per_class(()).values()}
    found: dict[int, tuple[ReadingTaken | WorkedOut, Instrument | None]] = {}
    for event in events:
        if isinstance(event, Started):
            known.update({i.id: i for i in event.instruments})
        elif isinstance(event, InstrumentChosen):
            known[event.instrument.id] = event.instrument
        elif isinstance(event, ReadingTaken):
            found[event.seq] = event, known.get(event.place.instrument or "")
        elif isinstance(event, WorkedOut):
            found[event.seq] = event, None
    return found


def _names_given(tree: Tree, events: Iterable[Event]) -> Iterator[tuple[str, int]]:
    for event in events:
        if isinstance(event, ReadingTaken) and event.kept_though_implausible:
            continue
        if isinstance(event, ReadingTaken) and event.slot != "step":
            yield BATTERY_VOLTAGE, event.seq
        elif isinstance(event, ReadingTaken | WorkedOut):
            yield event.step, event.seq
            step = tree.steps.get(event.step)
            if isinstance(step, Measure | WorkOut) and step.as_:
                yield step.as_, event.seq


def _instruments(events: Iterable[Event]) -> dict[InstrumentClass, Instrument]:
    own: list[Instrument] = []
    for event in events:
        if isinstance(event, Started):
            own.extend(event.instruments)
        elif isinstance(event, InstrumentChosen):
            own.append(event.instrument)
    return one_per_class(own)


def _complaint(events: Iterable[Event]) -> ComplaintChanged:
    last = ComplaintChanged(complaint=Complaint.UNKNOWN)
    for event in events:
        if isinstance(event, ComplaintChanged):
            last = event
    return last


def _tries(events: Iterable[Event]) -> TriesCounted | None:
    last = None
    for event in events:
        if isinstance(event, TriesCounted):
            last = event if event.tries else None
    return last


def _cycles(events: Iterable[Event]) -> dict[str, tuple[CycleRun, ...]]:
    found: dict[str, tuple[CycleRun, ...]] = {}
    for event in events:
        if isinstance(event, CycleRun):
            found[event.step] = (*found.get(event.step, ()), event)
    return found


def _fitted(tree: Tree, events: Iterable[Event]) -> dict[str, str]:
    """Bypasses and the like that are still on the car: name to what it is."""
    fitted: dict[str, str] = {}
    for event in events:
        step = tree.steps.get(event.step) if isinstance(event, ActionDone) else None
        if step is not None and step.kind == "do":
            fitted.update(step.fits)
            for name in step.removes:
                fitted.pop(name, None)
    return fitted
