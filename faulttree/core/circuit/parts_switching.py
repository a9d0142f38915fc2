"""Switches, relays and a control unit's inputs and outputs as branches and controls."""

from faulttree.core.circuit.elements import (
    ControlInput,
    ControlOutput,
    Pull,
    Relay,
    RelayCoil,
    Switch,
    SwitchContact,
    ThresholdSwitch,
)
from faulttree.core.circuit.netlist import (
    OPEN,
    Amount,
    Builder,
    Car,
    Changes,
    Control,
    Evaluate,
    Law,
    Terms,
)
from faulttree.core.circuit.static_conditions import holds
from faulttree.core.units import Quantity

SUPPRESSION_FORWARD_V = 0.7
"""Forward voltage of the diode across a coil [V]; usual silicon, from memory."""
SUPPRESSION_DIODE_OHM = 0.05
"""Its resistance when it conducts [ohm]; only a short or a wrong polarity shows it."""
SUPPRESSION_RESISTOR_SHARE = 6.0
"""A suppression resistor has about so many times the coil's resistance; common practice."""


def switch(name: str, element: Switch, b: Builder) -> None:
    """One branch a contact, closed in the positions it lists."""
    for key, contact in element.contacts.items():
        ohm = b.amount(contact.resistance, Quantity.RESISTANCE)

        def terms(
            car: Car,
            changes: Changes,
            key: str = key,
            contact: SwitchContact = contact,
            ohm: Amount = ohm,
        ) -> Terms:
            is_closed = car.states[element.follows] in contact.closed
            is_closed = is_closed or f"{key}-closed" in changes
            return Terms(ohm(car)) if is_closed else OPEN

        b.branch(f"{name}.{key}", b.pair(contact.between), terms)


def threshold_switch(name: str, element: ThresholdSwitch, b: Builder) -> None:
    """Closed beyond one point, open beyond the other; between them as it was at the usual value."""
    quantity = b.model.quantities[element.follows]
    opens, closes = b.fixed(element.opens, quantity), b.fixed(element.closes, quantity)
    ohm = b.amount(element.resistance, Quantity.RESISTANCE)

    def is_closed(value: float, shift: float) -> bool | None:
        value -= shift
        if closes > opens:
            return True if value >= closes else False if value <= opens else None
        return True if value <= closes else False if value >= opens else None

    def terms(car: Car, changes: Changes) -> Terms:
        shift = changes.get("shift", 0.0) * abs(closes - opens)
        now = is_closed(car.measured[element.follows].value, shift)
        if now is None:
            now = is_closed(car.usual[element.follows].value, shift)
        closed = "closed" in changes or now is not False
        return Terms(ohm(car)) if closed else OPEN

    b.branch(name, b.pair(element.between), terms)


def relay(name: str, element: Relay, b: Builder) -> None:
    """The coil as a branch and a control, its suppression, and a branch for each contact."""
    coil = element.coil
    ohm = b.amount(coil.resistance, Quantity.RESISTANCE)
    pair = b.pair(coil.between)
    branch = b.branch(
        f"{name}.coil", pair, lambda car, c: Terms(ohm(car) * c.get("coil-turns", 1.0))
    )
    _suppression(name, coil, b)
    pull_in, drop_out = (
        b.fixed(coil.pull_in, Quantity.VOLTAGE),
        b.fixed(coil.drop_out, Quantity.VOLTAGE),
    )
    control = b.control(
        Control(f"{name}.coil", "coil", *pair, branch=branch, on_at=pull_in, off_at=drop_out)
    )
    for key, contact in element.contacts.items():
        contact_ohm = b.amount(contact.resistance, Quantity.RESISTANCE)

        def terms(car: Car, _changes: Changes, ohm: Amount = contact_ohm) -> Terms:
            return Terms(ohm(car))

        for side, node in (("make", contact.make), ("break", contact.break_)):
            if node is not None:
                ends = b.pair((contact.common, node))
                is_make = side == "make"
                b.branch(f"{name}.{key}.{side}", ends, terms, control=control, closed_when=is_make)


def _suppression(name: str, coil: RelayCoil, b: Builder) -> None:
    first, second = b.pair(coil.between)
    if coil.suppression == "diode":
        usual = Terms(SUPPRESSION_DIODE_OHM, SUPPRESSION_FORWARD_V)
        b.branch(f"{name}.diode", (second, first), lambda _car, _c: usual, law=Law.DIODE)
    elif coil.suppression == "resistor":
        ohm = b.amount(coil.resistance, Quantity.RESISTANCE)
        share = SUPPRESSION_RESISTOR_SHARE
        b.branch(f"{name}.resistor", (first, second), lambda car, _c: Terms(ohm(car) * share))


def control_input(name: str, element: ControlInput, b: Builder) -> None:
    """What holds the pin, what loads it, and the control that says how the unit reads it."""
    pair = b.node(element.pin), b.node(element.ground)
    if element.pull:
        is_up = element.pull.to == "up"
        b.branch(f"{name}.pull", pair, _pull(element, element.pull, b), is_source=is_up)
    if element.load is not None:
        load = b.amount(element.load, Quantity.RESISTANCE)
        b.branch(f"{name}.load", pair, lambda car, _c: Terms(load(car)))
    low, high = (
        b.fixed(element.low_below, Quantity.VOLTAGE),
        b.fixed(element.high_from, Quantity.VOLTAGE),
    )
    b.control(Control(name, "input", *pair, on_at=high, off_at=low))


def _pull(element: ControlInput, pull: Pull, b: Builder) -> Evaluate:
    ohm = b.amount(pull.resistance, Quantity.RESISTANCE)
    supply = b.amount(pull.supply, Quantity.VOLTAGE) if pull.supply is not None else None

    def terms(car: Car, _changes: Changes) -> Terms:
        is_on = all(holds(c, car, b.model) for c in element.powered)
        return Terms(ohm(car), supply(car) if supply and is_on else 0.0)

    return terms


def control_output(name: str, element: ControlOutput, b: Builder) -> None:
    """A driver: a branch that its conditions close."""
    ohm = b.amount(element.resistance, Quantity.RESISTANCE)
    after = b.fixed(element.after, Quantity.TIME)
    driver = Control(name, "driver", conditions=element.drives_when, after_s=after)
    control = b.control(driver)
    b.branch(name, b.pair(element.between), lambda car, _c: Terms(ohm(car)), control=control)
