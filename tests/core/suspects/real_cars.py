"""Cars drawn at random from the model of the suspects, walked with instruments that are off.

Each resistance of a car is off by itself, its battery lies between the weak and the charging one of
the bench sheet, its fault has any size of the grid and is drawn by weight among those that show the
complaint. What is suspect is worked out on the circuit as it is drawn.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache
from random import Random
from typing import Any

import numpy as np
from benches import opened
from core.proof.real_walks import RealWalk
from pydantic import BaseModel

from faulttree.case_bench.battery import PostVolts, post_volts
from faulttree.case_bench.supply import this_car
from faulttree.core.bench.bench import Bench, Seen, Shown
from faulttree.core.bench.looks import Supplied, supplied
from faulttree.core.bench.sights import SURELY
from faulttree.core.bench.suspects import Form, Suspect
from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.faults import faults_of
from faulttree.core.circuit.loop_faults import faults_of_loop
from faulttree.core.circuit.netlist import Supply
from faulttree.core.expression import Expression
from faulttree.core.proof.judged import Judge
from faulttree.core.proof.set_up import values_of
from faulttree.core.suspects.evidence import Read, reads_of
from faulttree.core.suspects.grid import refined
from faulttree.core.suspects.hypotheses import Sighting
from faulttree.core.suspects.inferred import PERMANENT_SHARE
from faulttree.core.suspects.on_bench import SuspectBench
from faulttree.core.suspects.suspicion import Suspects, Suspicion
from faulttree.core.tree import Measure, Observe
from faulttree.core.units import Quantity
from faulttree.core.usual_instruments import one_per_class
from faulttree.core.walk.events import Complaint
from faulttree.core.walk.state import WalkState

OFF = 0.1
"""How far each resistance of a real car is from that of the model, at most, either way."""
_OHMS = {"resistance", "internal", "winding"}
_SUPPLY = "this car"


@dataclass(frozen=True)
class RealCar:
    """A car of its own: resistances off, a battery, and a fault in one size.

    Attributes:
        bench, judge: its own.
        battery: EMF, engine stopped and running [V].
        suspect: what is wrong; None for a healthy car.
        comes: it comes and goes.
    """

    bench: Bench
    judge: Judge
    battery: tuple[float, float]
    suspect: Suspect | None
    comes: bool = False

    @property
    def row(self) -> int:
        """Its row on its bench; 0 is the car without the fault."""
        return 0 if self.suspect is None else 1

    @property
    def shows(self) -> bool:
        """Whether it surely shows the complaint while the fault is there."""
        return int(self.bench.complaint[self.row]) == SURELY

    def reads(
        self,
        steps: Iterable[str],
        sighting: Sighting = Sighting.PRESENT,
        typed: Mapping[str, float] | None = None,
    ) -> tuple[Read, ...]:
        """What some steps read or show, without error; all in one stretch.

        Args:
            steps: ids of steps.
            sighting: how the complaint is said to be.
            typed: steps at which the reading is mistyped by a factor.
        """
        return tuple(
            self._read(seq, step_id, sighting, (typed or {}).get(step_id, 1.0))
            for seq, step_id in enumerate(steps)
        )

    def _read(self, seq: int, step_id: str, sighting: Sighting, factor: float) -> Read:
        found = self.bench.shown((step_id, frozenset()), np.array([self.row]))
        step = self.bench.tree.steps[step_id]
        if isinstance(found, Seen):
            assert isinstance(step, Observe)
            place = int(np.flatnonzero(found.may_be[:, self.row])[0])
            return Read(seq, step_id, frozenset(), None, step.outcomes[place].name, sighting, 0)
        assert isinstance(found, Shown)
        middle = factor * (found.low[self.row] + found.high[self.row]) / 2
        span = self.judge.span(step_id, middle, middle)
        assert span is not None
        return Read(seq, step_id, frozenset(), span.value, "", sighting, 0)


def drawn(name: str, chance: Random) -> RealCar:
    """A car of a shipped tree that complains, with a fault drawn by weight."""
    found = opened(name)
    suspects = refined(found.circuit.document, found.sheet.document)
    weights = [s.weight for s in suspects]
    while True:
        picked = chance.choices(suspects, weights)[0]
        comes = picked.comes is not None and chance.random() >= PERMANENT_SHARE
        one = _any_size(picked, found.circuit.document, chance)
        car = replace(real_car(name, chance, one), comes=comes)
        if car.shows:
            return car


def with_fault(name: str, fault: str, size: float | None, chance: Random) -> RealCar:
    """A car of a shipped tree with a fault of a size [SI]."""
    model = opened(name).circuit.document
    suspects = refined(model, opened(name).sheet.document)
    suspect = next(s for s in suspects if s.id == fault)
    return real_car(name, chance, suspect if size is None else sized(suspect, model, size))


def real_car(
    name: str, chance: Random, suspect: Suspect | None = None, off: float = OFF
) -> RealCar:
    """A car with a suspect in its first form; without one it is healthy."""
    found = opened(name)
    tree, sheet = found.tree.document, found.sheet.document
    circuit = Circuit.from_document(scaled(found.circuit.document, chance, off))
    suspects = () if suspect is None else (suspect,)
    battery = _battery(sheet, circuit.model, chance)
    bench = Bench(tree, circuit, sheet, {_SUPPLY: battery}, suspects)
    vehicle = found.vehicle.document if found.vehicle else None
    judge = Judge(tree, values_of(tree, vehicle), one_per_class(()))
    return RealCar(bench, judge, (battery[0].emf_v, battery[1].emf_v), suspect)


def sized(suspect: Suspect, model: CircuitModel, size: float) -> Suspect:
    """A suspect in one form, of a size [SI]."""
    if suspect.id.startswith("loop."):
        assert model.loop is not None
        of_loop = next(f for f in faults_of_loop(model.loop) if f.id == suspect.id)
        return replace(suspect, forms=(Form(None, size, Quantity.RATIO, inputs=of_loop.at(size)),))
    fault = next(f for f in faults_of(model) if f.id == suspect.id)
    form = Form(None, size, fault.quantity, (fault.sized(size),))
    return replace(suspect, forms=(form,))


def _any_size(suspect: Suspect, model: CircuitModel, chance: Random) -> Suspect:
    """A suspect in one form: any cell of its grid, any size in it."""
    sizes = [form.size for form in suspect.forms]
    if sizes[0] is None:
        return suspect
    place, share = chance.randrange(len(sizes) - 1), chance.random()
    low, high = (size or 0.0 for size in sizes[place : place + 2])
    is_log = min(low, high) > 0.0
    size = low * (high / low) ** share if is_log else low + share * (high - low)
    return sized(suspect, model, size)


def _battery(sheet: Any, model: CircuitModel, chance: Random) -> Supplied:
    """Anything between the weak and the charging one of the sheet."""
    three, share = supplied(sheet, model), chance.random()

    def between(place: bool) -> Supply:
        low, high = three["weak"].at(place), three["charging"].at(place)
        return Supply(
            low.emf_v + share * (high.emf_v - low.emf_v),
            low.internal_ohm + share * (high.internal_ohm - low.internal_ohm),
        )

    return Supplied(between(False), between(True))


def scaled(part: Any, chance: Random, off: float) -> Any:
    """A document with each resistance in it scaled by itself."""
    if isinstance(part, BaseModel):
        fields = {key: getattr(part, key) for key in type(part).model_fields}
        return part.model_copy(update={k: _field(k, v, chance, off) for k, v in fields.items()})
    if isinstance(part, Mapping):
        return {key: scaled(value, chance, off) for key, value in part.items()}
    return part


def _field(key: str, value: Any, chance: Random, off: float) -> Any:
    if key == "resistances":
        return tuple(_ohms(each, chance, off) for each in value)
    if key in _OHMS and isinstance(value, Expression) and not value.names:
        return _ohms(value, chance, off)
    return scaled(value, chance, off)


def _ohms(value: Expression, chance: Random, off: float) -> Expression:
    ohm = si(value, Quantity.RESISTANCE) * chance.uniform(1 - off, 1 + off)
    return Expression.parse(f"{ohm:.9f} ohm")


@dataclass
class ComingAndGoing(RealWalk):
    """A walk of a car whose fault comes and goes; the technician notes how the complaint is, and
    waits for it where a step counts only while it shows."""

    share: float = 0.3

    def __post_init__(self) -> None:
        super().__post_init__()
        self._bad = self.row

    def _answer(self, step_id: str) -> None:
        step = self.bench.tree.steps[step_id]
        if isinstance(step, Measure | Observe):
            waits = step.set_up.complaint == "present"
            self.row = self._bad if waits or self.chance.random() < self.share else 0
            now = Complaint.PRESENT if self.row else Complaint.ABSENT
            if self.walk.state.complaint.complaint is not now:
                self.walk.complaint(now)
        super()._answer(step_id)


def walked(name: str, car: RealCar, chance: Random) -> WalkState:
    """All that is recorded in a walk to its conclusion."""
    found = opened(name)
    vehicle = found.vehicle.document if found.vehicle else None
    real = RealWalk(car.bench, car.judge, vehicle, car.row, chance)
    comes = car.suspect.comes if car.suspect else None
    if car.comes and comes is not None:
        real = ComingAndGoing(car.bench, car.judge, vehicle, car.row, chance, comes.chance)
    real.to_the_end()
    return real.walk.state


def suspicions(name: str, state: WalkState) -> list[Suspicion]:
    """What is suspect after each reading of a walk."""
    reads, volts = reads_of(state), post_volts(state)
    suspects = suspects_at(name, _rounded(volts.stopped), _rounded(volts.running))
    return [suspects.after(reads[: n + 1], state.vehicle_values) for n in range(len(reads))]


def suspects_at(name: str, stopped: float | None = None, running: float | None = None) -> Suspects:
    """The suspects of a shipped tree on a battery that was measured [V]."""
    return Suspects(_suspect_bench(name, stopped, running))


@cache
def _suspect_bench(name: str, stopped: float | None, running: float | None) -> SuspectBench:
    found = opened(name)
    circuit = Circuit.from_document(found.circuit.document)
    battery = this_car(
        PostVolts(stopped, running), (), found.sheet.document, found.circuit.document
    )
    return SuspectBench(found.tree.document, circuit, found.sheet.document, battery)


def _rounded(volts: float | None) -> float | None:
    """To a tenth, so that few circuits are solved: half of that is what the battery is in doubt."""
    return None if volts is None else round(volts, 1)
