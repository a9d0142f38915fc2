"""The faults each kind of element may have, with usual weights and sizes.

Weights are relative; they and the sizes are common practice, no source, and every circuit document
may give its own. Sizes go from mild over typical to severe.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from faulttree.core.circuit import elements as el
from faulttree.core.circuit.edits import (
    SHORT_OHM,
    Between,
    Change,
    Edit,
    Ohm,
    Open,
    Series,
    Stuck,
    Threshold,
)
from faulttree.core.units import Quantity

SERIES_OHM = (0.3, 1.0, 5.0)
"""Added resistance of a bad joint [ohm]."""
LEAK_OHM = (10000.0, 2000.0, 200.0)
"""Resistance of a leak through damp and dirt [ohm]."""


@dataclass(frozen=True, slots=True)
class FaultKind:
    """A fault an element may have.

    Attributes:
        id: its name within the element.
        words: what is wrong, behind the element's name: “feed wire: open”.
        weight: how likely it is beside other faults.
        edits: what it does, given its size.
        sizes: usual sizes, mild, typical, severe [SI]; empty where the fault has no size.
        quantity: what the sizes are.
        trigger: where it comes and goes by nature, what brings it on; empty otherwise.
    """

    id: str
    words: str
    weight: float
    edits: Callable[[float], tuple[Edit, ...]]
    sizes: tuple[float, ...] = ()
    quantity: Quantity | None = None
    trigger: str = ""


@dataclass(frozen=True, slots=True)
class Rails:
    """Where shorts go: the reference, and the battery's positive post where there is one."""

    reference: str
    positive: str | None


def kinds_of(name: str, element: el.Element, rails: Rails) -> Iterator[FaultKind]:
    """Every fault that an element of this kind may have."""
    if isinstance(element, el.Wire):
        yield from _of_wire(name, element, rails)
    elif type(element) in _COMPOSED:
        yield from _COMPOSED[type(element)](name, element)
    else:
        for make in _SIMPLE[type(element)]:
            yield make(name)


def _open(branch: str, words: str = "open", weight: float = 1.0, key: str = "open") -> FaultKind:
    return FaultKind(key, words, weight, lambda _: (Open(branch),))


def _series(branch: str, weight: float = 1.0, key: str = "series", where: str = "") -> FaultKind:
    edits = lambda ohm: (Series(branch, ohm),)  # noqa: E731
    words = f"{where}: added series resistance" if where else "added series resistance"
    return FaultKind(key, words, weight, edits, SERIES_OHM, Quantity.RESISTANCE)


def _shorted(branch: str, words: str = "shorted", weight: float = 0.5) -> FaultKind:
    return FaultKind("shorted", words, weight, lambda _: (Ohm(branch, SHORT_OHM),))


def _change(
    name: str,
    words: str,
    element: str,
    change: str,
    weight: float,
    sizes: tuple[float, ...] = (),
    quantity: Quantity | None = Quantity.RATIO,
) -> FaultKind:
    edits = lambda size: (Change(element, change, size),)  # noqa: E731
    return FaultKind(name, words, weight, edits, sizes, quantity if sizes else None)


def _threshold(key: str, words: str, control: str, sizes: tuple[float, ...]) -> FaultKind:
    edits = lambda factor: (Threshold(control, factor),)  # noqa: E731
    return FaultKind(key, words, 0.3, edits, sizes, Quantity.RATIO)


def _between(key: str, words: str, pair: tuple[str, str], weight: float) -> FaultKind:
    return FaultKind(key, words, weight, lambda _: (Between(*pair, SHORT_OHM),))


def _leak(key: str, words: str, pair: tuple[str, str], weight: float) -> FaultKind:
    edits = lambda ohm: (Between(*pair, ohm),)  # noqa: E731
    return FaultKind(key, words, weight, edits, LEAK_OHM, Quantity.RESISTANCE)


def _of_wire(name: str, wire: el.Wire, rails: Rails) -> Iterator[FaultKind]:
    yield _open(name)
    yield _series(name, 0.5)
    end = wire.between[1]
    if rails.reference not in wire.between:
        yield _between("short-to-ground", "short to ground", (end, rails.reference), 0.5)
        yield _leak("leak-to-ground", "leakage to ground", (end, rails.reference), 0.2)
    if rails.positive and rails.positive not in wire.between:
        pair = (rails.positive, end)
        yield _between("short-to-positive", "short to battery positive", pair, 0.3)
        yield _leak("leak-to-positive", "leakage to battery positive", pair, 0.2)


def _of_switch(name: str, switch: el.Switch) -> Iterator[FaultKind]:
    for key in switch.contacts:
        yield from _of_switch_contact(name, key)


def _of_switch_contact(name: str, key: str) -> Iterator[FaultKind]:
    yield _open(f"{name}.{key}", f"contact {key} does not close", 1.0, f"{key}-open")
    yield _change(f"{key}-stuck", f"contact {key} stays closed", name, f"{key}-closed", 0.3)
    yield _series(f"{name}.{key}", 1.0, f"{key}-series", f"contact {key}")


def _of_relay(name: str, relay: el.Relay) -> Iterator[FaultKind]:
    coil = f"{name}.coil"
    yield _open(coil, "coil open", 0.7, "coil-open")
    yield _change(
        "coil-turns", "shorted turns in the coil", name, "coil-turns", 0.2, (0.8, 0.6, 0.3)
    )
    yield _threshold("pull-in", "pulls in too late", coil, (1.3, 1.7, 2.2))
    if relay.coil.suppression == "diode":
        words = "suppression diode shorted"
        diode = f"{name}.diode"
        yield FaultKind("diode-shorted", words, 0.3, lambda _: (Ohm(diode, SHORT_OHM),))
    for key, contact in relay.contacts.items():
        sides = [s for s, n in (("make", contact.make), ("break", contact.break_)) if n]
        for side in sides:
            yield from _of_relay_contact(f"{name}.{key}.{side}", f"{key}-{side}")


def _of_relay_contact(branch: str, key: str) -> Iterator[FaultKind]:
    words = key.replace("-", " ")
    yield _open(branch, f"contact {words} does not close", 1.0, f"{key}-open")
    welded = lambda _: (Stuck(branch),)  # noqa: E731
    yield FaultKind(f"{key}-welded", f"contact {words} welded", 0.5, welded)
    yield _series(branch, 1.0, f"{key}-series", f"contact {words}")


def _of_splice(name: str, splice: el.Splice) -> Iterator[FaultKind]:
    for node in splice.joins:
        yield _open(f"{name}.{node}", f"leg to {node} open", 0.5, f"{node}-open")
        yield _series(f"{name}.{node}", 0.5, f"{node}-series", f"leg to {node}")


def _of_pack(name: str, pack: el.ResistorPack) -> Iterator[FaultKind]:
    for number in range(1, len(pack.resistances) + 1):
        yield _open(f"{name}.r{number}", f"resistor {number} open", 1.0, f"r{number}-open")
    if pack.thermal_fuse:
        yield _open(f"{name}.thermal-fuse", "thermal fuse open", 2.0, "thermal-fuse-open")


def _of_coil(name: str, coil: el.Coil) -> Iterator[FaultKind]:
    yield _open(name)
    if coil.kind == "coil":
        yield _change("turns", "shorted turns", name, "turns", 0.5, (0.8, 0.6, 0.3))
        edit: Edit = Change(name, "hot-open") if coil.opens_above is not None else Open(name)
        words = "opens when it is hot"
        yield FaultKind("hot-open", words, 1.0, lambda _: (edit,), trigger="temperature")


def _of_control_input(name: str, element: el.ControlInput) -> Iterator[FaultKind]:
    if element.pull:
        words = f"pull-{element.pull.to} missing"
        yield _open(f"{name}.pull", words, 0.3, "pull-missing")
    words = "pin shorted to ground inside the unit"
    yield _between("pin-shorted", words, (element.pin, element.ground), 0.2)
    yield _threshold("threshold", "threshold too low", name, (0.7, 0.5, 0.2))


_SIMPLE: dict[type, tuple[Callable[[str], FaultKind], ...]] = {
    el.Battery: (
        lambda n: _change("flat", "flat", n, "charge", 2.0, (0.5, 0.25, 0.0)),
        lambda n: _change(
            "internal", "internal resistance too high", n, "internal", 1.0, (0.02, 0.05, 0.2),
            Quantity.RESISTANCE,
        ),
    ),
    el.Fuse: (
        lambda n: _open(n, "open", 2.0),
        lambda n: _series(n, 0.5),
    ),
    el.Joint: (
        lambda n: _open(n, "open", 2.0),
        lambda n: _series(n, 3.0),
    ),
    el.Ground: (
        lambda n: _open(n, "lost", 1.5),
        lambda n: _series(n, 3.0),
    ),
    el.Lamp: (lambda n: _open(n, "burnt out", 3.0), _shorted),
    el.Led: (_open, _shorted),
    el.Diode: (_open, _shorted),
    el.Motor: (
        lambda n: _open(n, "open", 1.0),
        lambda n: FaultKind("dead-spot", "dead spot on the commutator", 1.0,
                            lambda _: (Open(n),), trigger="random"),
        lambda n: _change("drag", "turns hard", n, "drag", 1.0, (1.3, 1.7, 2.5)),
        lambda n: _change("seized", "seized", n, "seized", 0.5),
        lambda n: _change(
            "brushes", "worn brushes", n, "brushes", 1.0, SERIES_OHM, Quantity.RESISTANCE
        ),
    ),
    el.Sender: (
        _open, _shorted,
        lambda n: _change("high", "resistance too high", n, "factor", 0.7, (1.2, 1.5, 3.0)),
        lambda n: _change("low", "resistance too low", n, "factor", 0.3, (0.8, 0.6, 0.3)),
    ),
    el.ThresholdSwitch: (
        lambda n: _open(n, "does not close", 1.0),
        lambda n: _change("stuck", "stays closed", n, "closed", 0.5),
        lambda n: _series(n, 1.0),
        lambda n: _change("shifted-up", "works too high", n, "shift", 0.5, (1.0, 2.0, 4.0)),
        lambda n: _change("shifted-down", "works too low", n, "shift", 0.5, (-1.0, -2.0, -4.0)),
    ),
    el.ControlOutput: (
        lambda n: _open(n, "output dead", 0.5, "dead"),
        lambda n: FaultKind("stuck-on", "output always on", 0.2, lambda _: (Stuck(n),)),
        lambda n: _series(n, 0.2),
    ),
}  # fmt: skip
_SIMPLE[el.Thermistor] = _SIMPLE[el.Sender]
_COMPOSED: dict[type, Callable[[str, Any], Iterator[FaultKind]]] = {
    el.Switch: _of_switch,
    el.Relay: _of_relay,
    el.Splice: _of_splice,
    el.ResistorPack: _of_pack,
    el.ControlInput: _of_control_input,
    el.Coil: _of_coil,
}
