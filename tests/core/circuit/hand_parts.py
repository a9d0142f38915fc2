"""What each element is in a deck for ngspice, by formulas of its own."""

import math
from dataclasses import dataclass
from itertools import pairwise

from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.edits import Change
from faulttree.core.uncertain import exactly
from faulttree.core.units import Quantity


@dataclass
class Part:
    """One branch: its name as in edits, its ends, and its law."""

    name: str
    a: str
    b: str
    law: str  # resistor, source, diode, lamp, motor
    ohm: float
    emf: float = 0.0
    more: tuple[float, ...] = ()
    relay: str = ""
    works_on: bool = True
    limit_a: float = math.inf


class HandParts:
    """The parts of each kind of element; a `Hand` has the model, its inputs and the faults."""

    def parts_of(self, name: str, element) -> list[Part]:
        return getattr(self, "_" + type(element).__name__.lower())(name, element)

    def _change(self, element: str, key: str, usual: float) -> float:
        amounts = [e.amount for e in self.edits
                   if isinstance(e, Change) and (e.element, e.key) == (element, key)]  # fmt: skip
        return amounts[-1] if amounts else usual

    def _value(self, expression, quantity) -> float:
        values = {n: exactly(v) for n, v in self.set.items() if not isinstance(v, str)}
        return si(expression, quantity, self.model.quantities, values)

    def _battery(self, name, e):
        emf = (
            self._value(e.emf, Quantity.VOLTAGE)
            if e.emf
            else _rest(self._value(e.charge, Quantity.RATIO))
        )
        emf = (
            _rest(self._change(name, "charge", -1))
            if self._change(name, "charge", -1) >= 0
            else emf
        )
        ohm = self._value(e.internal, Quantity.RESISTANCE)
        if e.charging and all(self._holds(c) for c in e.charging.when):
            emf, ohm = (
                self._value(e.charging.voltage, Quantity.VOLTAGE),
                self._value(e.charging.internal, Quantity.RESISTANCE),
            )
        ohm += self._change(name, "internal", 0.0)
        return [Part(name, e.plus, e.minus, "source", ohm, emf)]

    def _fuse(self, name, e):
        rating = si(e.rating, Quantity.CURRENT)
        ohm = si(e.resistance, Quantity.RESISTANCE) if e.resistance else 0.08 / rating
        limit = rating * (1.35 if e.kind == "fuse" else 2.0)
        return [Part(name, *e.between, "resistor", ohm, limit_a=limit)]

    def _wire(self, name, e):
        if e.resistance:
            return [
                Part(name, *e.between, "resistor", self._value(e.resistance, Quantity.RESISTANCE))
            ]
        length, area = (
            self._value(e.length, Quantity.LENGTH),
            self._value(e.area, Quantity.AREA) * 1e6,
        )
        warm = 1 + 0.00393 * (self._value(e.temperature, Quantity.TEMPERATURE) - 273.15 - 20)
        return [Part(name, *e.between, "resistor", 0.017241 * length / area * warm)]

    def _joint(self, name, e):
        return [Part(name, *e.between, "resistor", self._value(e.resistance, Quantity.RESISTANCE))]

    _ground = _joint

    def _splice(self, name, e):
        ohm = self._value(e.resistance, Quantity.RESISTANCE)
        return [Part(f"{name}.{n}", n, f"{name} centre", "resistor", ohm) for n in e.joins]

    def _switch(self, name, e):
        found = []
        for key, c in e.contacts.items():
            closed = self.set[e.follows] in c.closed or self._change(name, f"{key}-closed", 0)
            ohm = self._value(c.resistance, Quantity.RESISTANCE) if closed else math.inf
            found.append(Part(f"{name}.{key}", *c.between, "resistor", ohm))
        return found

    def _thresholdswitch(self, name, e):
        quantity = self.model.quantities[e.follows]
        opens, closes = si(e.opens, quantity), si(e.closes, quantity)
        x = self.set[e.follows] - self._change(name, "shift", 0.0) * abs(closes - opens)
        closed = x >= closes if closes > opens else x <= closes
        if min(opens, closes) < x < max(opens, closes):
            raise AssertionError("choose values outside the hysteresis for these tests")
        closed = closed or self._change(name, "closed", 0)
        ohm = self._value(e.resistance, Quantity.RESISTANCE) if closed else math.inf
        return [Part(name, *e.between, "resistor", ohm)]

    def _relay(self, name, e):
        ohm = self._value(e.coil.resistance, Quantity.RESISTANCE)
        turns = self._change(name, "coil-turns", 1.0)
        found = [Part(f"{name}.coil", *e.coil.between, "resistor", ohm * turns)]
        if e.coil.suppression == "diode":
            found.append(Part(f"{name}.diode", *reversed(e.coil.between), "diode", 0.05, 0.7))
        if e.coil.suppression == "resistor":
            found.append(Part(f"{name}.resistor", *e.coil.between, "resistor", 6 * ohm))
        for key, c in e.contacts.items():
            r = self._value(c.resistance, Quantity.RESISTANCE)
            for side, node in (("make", c.make), ("break", c.break_)):
                if node:
                    found.append(Part(f"{name}.{key}.{side}", c.common, node, "resistor", r,
                                      relay=f"{name}.coil", works_on=side == "make"))  # fmt: skip
        return found

    def _lamp(self, name, e):
        volts = si(e.voltage, Quantity.VOLTAGE)
        hot = volts**2 / si(e.power, Quantity.POWER)
        return [Part(name, *e.between, "lamp", hot * si(e.cold, Quantity.RATIO), volts, (hot,))]

    def _led(self, name, e):
        forward, ohm = si(e.forward, Quantity.VOLTAGE), si(e.resistance, Quantity.RESISTANCE)
        return [Part(name, *e.between, "diode", ohm, forward)]

    _diode = _led

    def _coil(self, name, e):
        ohm = self._value(e.resistance, Quantity.RESISTANCE) * self._change(name, "turns", 1.0)
        t = self._value(e.temperature, Quantity.TEMPERATURE)
        if e.kind == "coil":
            ohm *= 1 + 0.00393 * (t - 293.15)
        if self._change(name, "hot-open", 0) and t > si(e.opens_above, Quantity.TEMPERATURE):
            ohm = math.inf
        return [Part(name, *e.between, "resistor", ohm)]

    def _motor(self, name, e):
        volts, amps = si(e.voltage, Quantity.VOLTAGE), si(e.current, Quantity.CURRENT)
        winding, drag = si(e.winding, Quantity.RESISTANCE), self._change(name, "drag", 1.0)
        emf = volts - amps * winding
        f, c, b = (0.1, 0.05, 0.85) if e.load == "fan" else (0.85, 0.15, 0.0)
        shape = (f * drag * amps, c * drag * amps / emf, b * drag * amps / emf**2)
        if self._change(name, "seized", 0):
            return [Part(name, *e.between, "resistor", winding)]
        ohm = winding + self._change(name, "brushes", 0.0)
        return [Part(name, *e.between, "motor", ohm, 0.0, shape)]

    def _resistorpack(self, name, e):
        found = [
            Part(
                f"{name}.r{i + 1}", e.taps[i], e.taps[i + 1], "resistor", si(r, Quantity.RESISTANCE)
            )
            for i, r in enumerate(e.resistances)
        ]
        fuse = e.thermal_fuse
        limit = si(fuse.opens_above, Quantity.CURRENT) if fuse.opens_above else math.inf
        ohm = si(fuse.resistance, Quantity.RESISTANCE)
        return [*found, Part(f"{name}.thermal-fuse", *fuse.between, "resistor", ohm, limit_a=limit)]

    def _sender(self, name, e):
        curve = [(si(p.at, Quantity.RATIO), si(p.is_, Quantity.RESISTANCE)) for p in e.curve]
        (x0, y0), (x1, y1) = _around(self.set[e.follows], curve)
        ohm = y0 + (self.set[e.follows] - x0) * (y1 - y0) / (x1 - x0)
        return [Part(name, *e.between, "resistor", ohm * self._change(name, "factor", 1.0))]

    def _thermistor(self, name, e):
        points = [(si(p.at, Quantity.TEMPERATURE), si(p.is_, Quantity.RESISTANCE)) for p in e.curve]
        ohm = _steinhart_hart_by_halving(self.set[e.follows], points)
        return [Part(name, *e.between, "resistor", ohm * self._change(name, "factor", 1.0))]

    def _controlinput(self, name, e):
        powered = all(self._holds(c) for c in e.powered)
        supply = self._value(e.pull.supply, Quantity.VOLTAGE) if e.pull.supply and powered else 0.0
        pull = self._value(e.pull.resistance, Quantity.RESISTANCE)
        found = [Part(f"{name}.pull", e.pin, e.ground, "source", pull, supply)]
        if e.load:
            load = self._value(e.load, Quantity.RESISTANCE)
            found.append(Part(f"{name}.load", e.pin, e.ground, "resistor", load))
        return found

    def _controloutput(self, name, e):
        ohm = self._value(e.resistance, Quantity.RESISTANCE)
        return [Part(name, *e.between, "resistor", ohm, relay=name)]


def _rest(charge: float) -> float:
    (x0, y0), (x1, y1) = _around(
        charge, [(0, 11.6), (0.25, 12), (0.5, 12.2), (0.75, 12.4), (1, 12.6)]
    )
    return y0 + (charge - x0) * (y1 - y0) / (x1 - x0)


def _around(x, points):
    return next((p, q) for p, q in pairwise(points) if x <= q[0])


def _steinhart_hart_by_halving(kelvin, points):
    """Resistance by halving, with the coefficients from a linear system solved by elimination."""
    rows = [[1.0, math.log(r), math.log(r) ** 3, 1 / t] for t, r in points]
    for i in range(3):
        for k in range(i + 1, 3):
            f = rows[k][i] / rows[i][i]
            rows[k] = [y - f * x for x, y in zip(rows[i], rows[k], strict=True)]
    c = rows[2][3] / rows[2][2]
    b = (rows[1][3] - rows[1][2] * c) / rows[1][1]
    a = rows[0][3] - rows[0][1] * b - rows[0][2] * c
    low, high = 0.0, 20.0
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (low, middle) if a + b * middle + c * middle**3 > 1 / kelvin else (middle, high)
    return math.exp(low)
