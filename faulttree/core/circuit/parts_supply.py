"""Battery, fuses, wires, splices, contacts and grounds as branches."""

from faulttree.core.circuit.elements import Battery, Fuse, Ground, Joint, Splice, Wire
from faulttree.core.circuit.laws import (
    FUSE_DROP_V,
    FUSE_OPENS_AT,
    LINK_OPENS_AT,
    battery_emf,
    wire_resistance,
)
from faulttree.core.circuit.netlist import Amount, Builder, Car, Changes, Evaluate, Terms
from faulttree.core.circuit.static_conditions import holds
from faulttree.core.units import Quantity


def battery(name: str, element: Battery, b: Builder) -> None:
    """EMF behind a resistance: by state of charge, or by the generator while that charges."""
    charge, internal = (
        b.amount(element.charge, Quantity.RATIO),
        b.amount(element.internal, Quantity.RESISTANCE),
    )
    own = b.amount(element.emf, Quantity.VOLTAGE) if element.emf else None
    charging = element.charging
    volts = b.amount(charging.voltage, Quantity.VOLTAGE) if charging else None
    inner = (
        b.amount(charging.internal, Quantity.RESISTANCE) if charging and charging.internal else None
    )

    def terms(car: Car, changes: Changes) -> Terms:
        added = changes.get("internal", 0.0)
        charges = charging is not None and all(holds(c, car, b.model) for c in charging.when)
        if car.supply and ("charge" not in changes or charges):
            return Terms(car.supply.internal_ohm + added, car.supply.emf_v)
        if volts and charges:
            return Terms((inner or internal)(car) + added, volts(car))
        if "charge" in changes:
            inside = car.supply.internal_ohm if car.supply else internal(car)
            return Terms(inside + added, battery_emf(changes["charge"]))
        emf = own(car) if own else battery_emf(charge(car))
        return Terms(internal(car) + added, emf)

    b.branch(name, (b.node(element.plus), b.node(element.minus)), terms, is_source=True)


def fuse(name: str, element: Fuse, b: Builder) -> None:
    """A resistance that a current above a share of its rating opens for good."""
    rating = b.fixed(element.rating, Quantity.CURRENT)
    usual = FUSE_OPENS_AT if element.kind == "fuse" else LINK_OPENS_AT
    share = b.fixed(element.opens_at, Quantity.RATIO) if element.opens_at else usual
    ohm = (
        b.fixed(element.resistance, Quantity.RESISTANCE)
        if element.resistance
        else FUSE_DROP_V / rating
    )
    b.branch(name, b.pair(element.between), _plain(lambda _: ohm), opens_above_a=share * rating)


def wire(name: str, element: Wire, b: Builder) -> None:
    """Copper by length, cross-section and temperature, or a plain resistance."""
    if element.resistance is not None:
        ohm = b.amount(element.resistance, Quantity.RESISTANCE)
    else:
        assert element.length is not None
        assert element.area is not None
        length, area = (
            b.amount(element.length, Quantity.LENGTH),
            b.amount(element.area, Quantity.AREA),
        )
        temperature = b.amount(element.temperature, Quantity.TEMPERATURE)

        def ohm(car: Car) -> float:
            return wire_resistance(length(car), area(car), temperature(car))

    b.branch(name, b.pair(element.between), _plain(ohm))


def joint(name: str, element: Joint | Ground, b: Builder) -> None:
    """A contact resistance."""
    ohm = b.amount(element.resistance, Quantity.RESISTANCE)
    b.branch(name, b.pair(element.between), _plain(ohm))


def splice(name: str, element: Splice, b: Builder) -> None:
    """A star of legs round a point inside the harness that cannot be probed."""
    ohm = b.amount(element.resistance, Quantity.RESISTANCE)
    centre = b.own_node(name)
    for node in element.joins:
        b.branch(f"{name}.{node}", (b.node(node), centre), _plain(ohm))


def _plain(ohm: Amount) -> Evaluate:
    return lambda car, _changes: Terms(ohm(car))
