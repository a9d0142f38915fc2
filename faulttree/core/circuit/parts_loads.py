"""Lamps, diodes, coils, motors, resistor packs and sensors as branches."""

import math

from faulttree.core.circuit.elements import (
    Coil,
    CurvePoint,
    Diode,
    Lamp,
    Led,
    Motor,
    ResistorPack,
    Sender,
    Thermistor,
)
from faulttree.core.circuit.laws import copper_factor, interpolated, thermistor_resistance
from faulttree.core.circuit.netlist import (
    OPEN,
    Amount,
    Builder,
    Car,
    Changes,
    Evaluate,
    Law,
    Terms,
)
from faulttree.core.units import Quantity

FAN_SHARES = (0.10, 0.05, 0.85)
"""Shares of a fan motor's rated current that friction, drag (with speed) and the fan (with its
square) take; common practice, no source."""
STEADY_SHARES = (0.85, 0.15, 0.0)
"""The same of a motor with a steady load: starter, window, wiper; common practice, no source."""


def lamp(name: str, element: Lamp, b: Builder) -> None:
    """Hot resistance V2/P at the rated voltage, cold a share of it."""
    volts, watts = (
        b.fixed(element.voltage, Quantity.VOLTAGE),
        b.fixed(element.power, Quantity.POWER),
    )
    hot = volts * volts / watts
    terms = Terms(b.fixed(element.cold, Quantity.RATIO) * hot, volts, (hot, 0.0, 0.0))
    b.branch(name, b.pair(element.between), _always(terms), law=Law.LAMP)


def diode(name: str, element: Diode | Led, b: Builder) -> None:
    """A forward voltage and a resistance; nothing the other way."""
    volts, ohm = (
        b.fixed(element.forward, Quantity.VOLTAGE),
        b.fixed(element.resistance, Quantity.RESISTANCE),
    )
    b.branch(name, b.pair(element.between), _always(Terms(ohm, volts)), law=Law.DIODE)


def coil(name: str, element: Coil, b: Builder) -> None:
    """Resistance at 20 degC, and with the temperature of its copper; a heater's does not change."""
    ohm = b.amount(element.resistance, Quantity.RESISTANCE)
    temperature = b.amount(element.temperature, Quantity.TEMPERATURE)
    limit = b.fixed(element.opens_above, Quantity.TEMPERATURE) if element.opens_above else math.inf

    def terms(car: Car, changes: Changes) -> Terms:
        if "hot-open" in changes and temperature(car) > limit:
            return OPEN
        factor = copper_factor(temperature(car)) if element.kind == "coil" else 1.0
        return Terms(ohm(car) * factor * changes.get("turns", 1.0))

    b.branch(name, b.pair(element.between), terms)


def motor(name: str, element: Motor, b: Builder) -> None:
    """Winding, and currents for friction, drag and fan fitted to the rated point."""
    volts, amps = (
        b.fixed(element.voltage, Quantity.VOLTAGE),
        b.fixed(element.current, Quantity.CURRENT),
    )
    winding = b.fixed(element.winding, Quantity.RESISTANCE)
    back_emf = max(volts - amps * winding, 1e-3 * volts)
    shares = FAN_SHARES if element.load == "fan" else STEADY_SHARES

    def terms(_car: Car, changes: Changes) -> Terms:
        drag = changes.get("drag", 1.0) * amps
        shape = (shares[0] * drag, shares[1] * drag / back_emf, shares[2] * drag / back_emf**2)
        ohm = winding + changes.get("brushes", 0.0)
        return Terms(ohm, 0.0, (math.inf, 0.0, 0.0) if "seized" in changes else shape)

    b.branch(name, b.pair(element.between), terms, law=Law.MOTOR)


def resistor_pack(name: str, element: ResistorPack, b: Builder) -> None:
    """The resistors r1, r2 ... from the first tap on, and the thermal fuse."""
    pairs = zip(element.taps, element.taps[1:], strict=False)
    for number, (ends, value) in enumerate(zip(pairs, element.resistances, strict=True), 1):
        ohm = b.fixed(value, Quantity.RESISTANCE)
        b.branch(f"{name}.r{number}", b.pair(ends), _always(Terms(ohm)))
    fuse = element.thermal_fuse
    if fuse:
        fuse_ohm = b.fixed(fuse.resistance, Quantity.RESISTANCE)
        limit = b.fixed(fuse.opens_above, Quantity.CURRENT) if fuse.opens_above else math.inf
        b.branch(
            f"{name}.thermal-fuse",
            b.pair(fuse.between),
            _always(Terms(fuse_ohm)),
            opens_above_a=limit,
        )


def sender(name: str, element: Sender, b: Builder) -> None:
    """Straight lines between the points of its curve."""
    curve = _points(element.curve, element.follows, b)

    def ohm(car: Car) -> float:
        return interpolated(car.measured[element.follows].value, curve)

    _sensor(name, element, ohm, b)


def thermistor(name: str, element: Thermistor, b: Builder) -> None:
    """The law of a thermistor through the points of its table."""
    curve = _points(element.curve, element.follows, b)

    def ohm(car: Car) -> float:
        return thermistor_resistance(car.measured[element.follows].value, curve)

    _sensor(name, element, ohm, b)


def _always(terms: Terms) -> Evaluate:
    return lambda _car, _changes: terms


def _sensor(name: str, element: Sender | Thermistor, ohm: Amount, b: Builder) -> None:
    def terms(car: Car, changes: Changes) -> Terms:
        return Terms(ohm(car) * changes.get("factor", 1.0))

    b.branch(name, b.pair(element.between), terms)


def _points(
    curve: tuple[CurvePoint, ...], follows: str, b: Builder
) -> tuple[tuple[float, float], ...]:
    quantity = b.model.quantities[follows]
    return tuple((b.fixed(p.at, quantity), b.fixed(p.is_, Quantity.RESISTANCE)) for p in curve)
