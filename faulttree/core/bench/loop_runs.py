"""How the refrigerant loop of each car on the bench is run, and what it shows then."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from faulttree.core.atmosphere import Atmosphere
from faulttree.core.bench.setting import Inputs
from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.loop_document import ByMotor, ByShares
from faulttree.core.circuit.loop_document import Loop as LoopSection
from faulttree.core.circuit.loop_faults import OF_CAR_ALTITUDE, OF_CAR_REFRIGERANT, PREFIX
from faulttree.core.expression import Expression
from faulttree.core.loop.control import STAYS_OFF, Control, Cycling, Watches, controlled
from faulttree.core.loop.heater import Heat, Heater, heated
from faulttree.core.loop.parts import Loop, Metering, Readings, Run
from faulttree.core.loop.standing import standing
from faulttree.core.loop.steady import running
from faulttree.core.refrigerant.refrigerant import Refrigerant, properties
from faulttree.core.uncertain import exactly
from faulttree.core.units import Quantity

Values = Mapping[str, float]
"""What a loop shows, by the names of circuit.loop_document.SHOWN [SI]."""
ICE_BELOW_K, ICE_AFTER_S, ICE_AIR = 270.15, 1200.0, 0.2
"""Fins colder than this grow ice that after so long leaves so much of the airflow; common practice,
no source."""
_ICED_MIX = 0.85
"""Share of the vent's air that no longer passes cold fins then; common practice, no source."""
_LEAST_AIR = 0.05
_FIVE_MINUTES = 300.0
_EQUALISES = {Metering.VALVE: 240.0, Metering.TUBE: 60.0}
"""Seconds until the gauges meet after a stop; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """What the circuit does for the loop: shares of rated speed of its fans, and the clutch."""

    fan: float = 1.0
    blower: float = 1.0
    is_engaged: bool = True


@dataclass(frozen=True, slots=True)
class Asked:
    """One car to run: its inputs, those of its fault and of the look, and time since [s]."""

    inputs: Inputs
    drawn: Drawn
    elapsed: float = math.inf


@dataclass(frozen=True, slots=True)
class _Job:
    """A loop as it is run, with what stands around it."""

    loop: Loop
    run: Run
    turns: float
    heat: Heat
    coolant: float
    is_stuck: bool


class LoopRuns:
    """The loop of one circuit document; every run is worked out once."""

    def __init__(self, model: CircuitModel) -> None:
        assert model.loop is not None
        self._model, self._section = model, model.loop
        self.loop = loop_of(model.loop)
        self._known: dict[tuple[Loop, Run], Readings] = {}
        self._control = _control_of(model.loop)

    def shown(self, asked: Sequence[Asked]) -> list[Values]:
        """What each car shows, in their order."""
        jobs = [self._job(each) for each in asked]
        self._work_out(jobs)
        first = [self._controlled(job) for job in jobs]
        iced = [
            replace(job, run=replace(job.run, evaporator_air=job.run.evaporator_air * ICE_AIR))
            if self._grows_ice(job, readings, each)
            else job
            for job, (readings, _), each in zip(jobs, first, asked, strict=True)
        ]
        self._work_out(iced)
        return [
            self._values(job, job is not before) for job, before in zip(iced, jobs, strict=True)
        ]

    def _work_out(self, jobs: Iterable[_Job]) -> None:
        asked = dict.fromkeys((job.loop, job.run) for job in jobs if job.turns > 0)
        for loop in dict.fromkeys(loop for loop, _ in asked):
            missing = [run for of, run in asked if of == loop and (of, run) not in self._known]
            if missing:
                found = running(loop, missing)
                self._known.update(zip(((loop, run) for run in missing), found, strict=True))

    @staticmethod
    def _grows_ice(job: _Job, readings: Readings, asked: Asked) -> bool:
        return job.turns > 0 and readings.fin < ICE_BELOW_K and asked.elapsed >= ICE_AFTER_S

    def _controlled(self, job: _Job) -> tuple[Readings, Cycling]:
        still = standing(job.loop, job.run)
        if job.turns <= 0:
            return still, STAYS_OFF
        control = replace(self._control, is_stuck=job.is_stuck) if self._control else None
        held = properties(job.run.charged_with or job.loop.refrigerant)
        return controlled(self._known[job.loop, job.run], still, job.run, control, held)

    def _values(self, job: _Job, is_iced: bool) -> Values:
        readings, cycling = self._controlled(job)
        vent = readings.vent
        if cycling is STAYS_OFF:
            vent = job.run.mixed(vent)
        if is_iced:
            vent += _ICED_MIX * (job.run.inlet - vent)
        return {
            "low-side": readings.low_side,
            "high-side": readings.high_side,
            "evaporator-in": readings.evaporator_in,
            "suction-pipe": readings.suction_pipe,
            "discharge-pipe": readings.discharge_pipe,
            "liquid-pipe": readings.liquid_pipe,
            "valve-in": readings.valve_in,
            "fin": readings.fin,
            "vent": vent,
            "airflow": job.run.evaporator_air,
            "cycles": cycling.rate * _FIVE_MINUTES,
            "recovered": job.loop.charge * job.run.charge,
            "equalises": _EQUALISES[job.loop.metering] / (1.0 + 2.0 * job.run.leak),
            "heater-in": job.coolant,
            "heater-out": job.heat.outlet,
        }

    def _job(self, asked: Asked) -> _Job:
        section, look = self._section, _Look(self._model, asked.inputs)
        drawn = asked.drawn
        loop, other = self._filled(look)
        altitude = look.of_car(OF_CAR_ALTITUDE)
        if altitude is None:
            altitude = look.amount(section.altitude, Quantity.LENGTH)
        ambient = look.amount(section.ambient, Quantity.TEMPERATURE)
        share, coolant, heat = _heat(section, look, ambient)
        turns = look.by_state(section.compressor.turns.follows, section.compressor.turns.is_)
        run = Run(
            ambient=ambient,
            humidity=look.amount(section.humidity, Quantity.RATIO),
            atmosphere=Atmosphere.at_altitude(float(altitude)).pressure,
            speed=turns if turns > 0 else 1.0,
            condenser_air=max(
                _condenser_air(section, look, drawn) * look.fault("condenser-air", 1.0), _LEAST_AIR
            ),
            evaporator_air=max(
                _blown(section, look, drawn) * look.fault("evaporator-air", 1.0), _LEAST_AIR
            ),
            charged_with=other,
            charge=look.fault("charge", 1.0),
            air=look.fault("air", 0.0),
            restriction=look.fault("restriction", 0.0),
            valve_held=look.stuck("valve-held"),
            metering_area=look.fault("metering-area", 1.0),
            leak=look.fault("leak", 0.0),
            slip=look.fault("slip", 0.0),
            through_heater=share,
            heater_gain=heat.gain,
            coolant=coolant,
        )
        stands = turns <= 0 or not drawn.is_engaged
        is_stuck = look.fault("control-stuck", 0.0) > 0
        return _Job(loop, run, 0.0 if stands else turns, heat, coolant, is_stuck)

    def _filled(self, look: "_Look") -> tuple[Loop, Refrigerant | None]:
        """The loop of the car's own refrigerant, and another one that is in it, if so.

        A car of the refrigerant that the document calls the wrong one has that of the document as
        its wrong one.
        """
        told, wrong = look.of_car(OF_CAR_REFRIGERANT), self._section.wrong_refrigerant
        loop = replace(self.loop, refrigerant=Refrigerant(str(told))) if told else self.loop
        if look.fault("charged-with", 0.0) <= 0 or wrong is None:
            return loop, None
        other = Refrigerant(wrong)
        return loop, self.loop.refrigerant if other is loop.refrigerant else other


class _Look:
    """The inputs of one car in one look: those that are set, else as usual."""

    def __init__(self, model: CircuitModel, inputs: Inputs) -> None:
        self._model, self._inputs = model, inputs

    def fault(self, name: str, otherwise: float) -> float:
        """A parameter that a fault of the loop sets."""
        return float(self._inputs.get(PREFIX + name, otherwise))

    def of_car(self, name: str) -> float | str | None:
        """What the data of the car say of its loop; None where they say nothing."""
        return self._inputs.get(name)

    def stuck(self, name: str) -> float | None:
        """Where a fault of the loop holds something; None where nothing does."""
        found = self._inputs.get(PREFIX + name)
        return None if found is None else float(found)

    def amount(self, value: Expression, quantity: Quantity) -> float:
        """An amount that may use measured inputs [SI]."""
        quantities = self._model.quantities
        around = {name: exactly(self._measured(name)) for name in value.names}
        return value.evaluator(quantity, quantities)(around).value

    def by_state(self, follows: str, values: Mapping[str, Expression]) -> float:
        """A speed or share by the state of an input; zero in a state that is not listed [SI]."""
        state = str(self._inputs.get(follows, self._model.inputs[follows].usual.text))
        found = values.get(state)
        if found is None:
            return 0.0
        quantity = next(iter(found.quantities({}) & _BY_STATE))
        return si(found, quantity)

    def _measured(self, name: str) -> float:
        if name in self._inputs:
            return float(self._inputs[name])
        return si(self._model.inputs[name].usual, self._model.quantities[name])


_BY_STATE = {Quantity.RATIO, Quantity.ROTATIONAL_SPEED}


def loop_of(section: LoopSection) -> Loop:
    """The loop of a document, as it left the works."""
    return Loop(
        refrigerant=Refrigerant(section.refrigerant),
        charge=si(section.charge, Quantity.MASS),
        metering=Metering(section.metering),
        displacement=si(section.compressor.displacement, Quantity.VOLUME),
        superheat=si(section.superheat, Quantity.TEMPERATURE_DIFFERENCE),
    )


def _control_of(section: LoopSection) -> Control | None:
    written = section.control
    if written is None:
        return None
    opens, closes = (si(each, written.quantity) for each in (written.opens, written.closes))
    return Control(Watches(written.watches), opens, closes)


def _heat(section: LoopSection, look: _Look, ambient: float) -> tuple[float, float, Heat]:
    """Share of the air that passes the heater core, temperature of the coolant, what it does."""
    heater = section.heater
    if heater is None:
        return 0.0, ambient, Heat(0.0, ambient, ambient)
    coolant = look.amount(heater.coolant, Quantity.TEMPERATURE)
    flow = _share(heater.flow, look) * look.fault("heater-flow", 1.0)
    door, leak = look.fault("door", _share(heater.door, look)), look.fault("heat-leak", 0.0)
    usual = Heater(coolant)
    heat = heated(replace(usual, flow=usual.flow * flow), ambient)
    return door + leak * (1.0 - door), coolant, heat


def _share(written: ByShares | Expression, look: _Look) -> float:
    if isinstance(written, ByShares):
        return look.by_state(written.follows, written.is_)
    return si(written, Quantity.RATIO)


def _condenser_air(section: LoopSection, look: _Look, drawn: Drawn) -> float:
    """Draught and fan drive one stream: their pressures add, so the squares of their flows do."""
    condenser, draught, fan = section.condenser, 0.0, 0.0
    if condenser.draught:
        draught = look.by_state(condenser.draught.follows, condenser.draught.is_)
    if condenser.fan:
        fan = si(condenser.fan.gives, Quantity.RATIO) * drawn.fan
    return math.hypot(draught, fan)


def _blown(section: LoopSection, look: _Look, drawn: Drawn) -> float:
    blower = section.evaporator.blower
    if isinstance(blower, ByMotor):
        return si(blower.gives, Quantity.RATIO) * drawn.blower
    return look.by_state(blower.follows, blower.is_)
