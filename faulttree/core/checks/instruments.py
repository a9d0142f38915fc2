"""instrument-fits: an instrument cannot read the quantity, or is not in the tree's list."""

from collections.abc import Iterator

from faulttree.core.checks.finding import Finding
from faulttree.core.instruments import InstrumentClass
from faulttree.core.tree import Measure, Observe, Tree
from faulttree.core.units import Quantity

_C = InstrumentClass
_CAN_READ: dict[Quantity, tuple[InstrumentClass, ...]] = {
    Quantity.VOLTAGE: (_C.METER, _C.LOW_IMPEDANCE_METER),
    Quantity.RESISTANCE: (_C.METER,),
    Quantity.CURRENT: (_C.METER, _C.CLAMP),
    Quantity.GAUGE_PRESSURE: (_C.GAUGES,),
    Quantity.ABSOLUTE_PRESSURE: (_C.GAUGES,),
    Quantity.PRESSURE_DIFFERENCE: (_C.GAUGES,),
    Quantity.TEMPERATURE: (_C.THERMOMETER, _C.METER),
    Quantity.TEMPERATURE_DIFFERENCE: (_C.THERMOMETER,),
    Quantity.RATIO: (_C.HYGROMETER,),
    Quantity.MASS: (_C.SCALE,),
    Quantity.LENGTH: (_C.FEELER_GAUGE,),
    Quantity.TIME: (_C.STOPWATCH,),
    Quantity.COUNT: (_C.STOPWATCH,),
}


def check(tree: Tree) -> Iterator[Finding]:
    """Each step's instrument reads its quantity and is announced at the head of the tree."""
    for step_id, step in tree.steps.items():
        if not isinstance(step, Measure | Observe) or step.with_ is None:
            continue
        if isinstance(step, Measure) and step.with_ not in _CAN_READ.get(step.quantity, ()):
            can = ", ".join(_CAN_READ.get(step.quantity, ())) or "nothing: work it out instead"
            yield Finding(
                "instrument-fits",
                ("steps", step_id, "with"),
                f"a {step.with_} does not read {step.quantity.words}",
                f"What reads it: {can}.",
            )
        if step.with_ not in tree.instruments:
            yield Finding(
                "instrument-fits",
                ("steps", step_id, "with"),
                f"{step.with_} is not among the tree's instruments",
                f"Add {step.with_} to instruments at the head of the tree.",
            )
