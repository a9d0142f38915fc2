"""Resistances in series and parallel, dividers, and lines that a control unit pulls up."""

import math
from collections.abc import Iterator, Sequence

from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.sums import Answer, Input, Sum, SumRefused, Values, over


def parallel_ohm(ohms: Sequence[float]) -> float:
    """Resistance of several side by side [ohm]."""
    if min(ohms) == 0:
        return 0.0
    return 1 / sum(1 / ohm for ohm in ohms)


def _parallel(values: Values) -> Sequence[Answer]:
    return [Answer("resistance", Kind.RESISTANCE, parallel_ohm(values.every("resistance")))]


def _series(values: Values) -> Sequence[Answer]:
    return [Answer("resistance", Kind.RESISTANCE, sum(values.every("resistance")))]


def _divider(values: Values) -> Sequence[Answer]:
    lower = values["lower"]
    loaded = parallel_ohm([lower, values["load"]]) if "load" in values else lower
    total = values["upper"] + loaded
    return [
        Answer("tap", Kind.VOLTAGE, values["supply"] * loaded / total),
        Answer("current", Kind.CURRENT, values["supply"] / total),
    ]


def _pulled_up(values: Values) -> Sequence[Answer]:
    gap = max(0.0, values["open"] - values["voltage"])
    ohm = over(values["pull-up"] * values["voltage"], gap) if values["voltage"] else 0.0
    return [
        Answer("to ground", Kind.RESISTANCE, ohm),
        Answer("current", Kind.CURRENT, gap / values["pull-up"]),
    ]


def _not_above_open(values: Values) -> None:
    if values["voltage"] > values["open"]:
        raise SumRefused(
            "The line cannot be above its open voltage: type the open voltage first, "
            "as in calc pulled-up 5.00V 0.82V 2.2k."
        )


def _nothing_pulls(_values: Values, answers: Sequence[Answer]) -> Iterator[str]:
    if math.isinf(answers[0].value):
        yield "Nothing pulls the line down: an open circuit to ground."


_EACH = Input("resistance", Kind.RESISTANCE, "of one of them; as many as there are", many=True)

SERIES = Sum(
    name="series",
    title="resistances one after the other",
    formula="resistance = the sum of them all",
    symbols="R = R1 + R2 + …",
    inputs=(Input(_EACH.name, _EACH.kind, _EACH.words, many=True, zero=True),),
    source="Kirchhoff's laws",
    example="20ohm 30ohm 4.7k",
    work=_series,
    keywords="resistor add",
)

PARALLEL = Sum(
    name="parallel",
    title="resistances side by side",
    formula="1 ÷ resistance = the sum of 1 ÷ each",
    symbols="1/R = 1/R1 + 1/R2 + …",
    inputs=(_EACH,),
    source="Kirchhoff's laws",
    example="20ohm 30ohm 40ohm",
    work=_parallel,
    keywords="resistor heater defogger lines lamps",
)

DIVIDER = Sum(
    name="divider",
    title="voltage between two resistances",
    formula="tap = supply × lower ÷ (upper + lower); a load lies beside the lower one",
    symbols="V = Vs·R2/(R1 + R2)",
    inputs=(
        Input("supply", Kind.VOLTAGE, "across both"),
        Input("upper", Kind.RESISTANCE, "from supply to tap", zero=True),
        Input("lower", Kind.RESISTANCE, "from tap to ground"),
        Input("load", Kind.RESISTANCE, "from tap to ground beside it", optional=True),
    ),
    source="Ohm's and Kirchhoff's laws",
    example="5V 2.2k 1k",
    work=_divider,
    keywords="sensor sender gauge pull-up potentiometer tap",
)

PULLED_UP = Sum(
    name="pulled-up",
    title="resistance to ground on a pulled-up line",
    formula="resistance = pull-up × voltage ÷ (open voltage - voltage)",
    symbols="R = Rp·V/(Vo - V)",
    inputs=(
        Input("open", Kind.VOLTAGE, "on the line with the switch or sensor unplugged"),
        Input("voltage", Kind.VOLTAGE, "on it now", zero=True),
        Input("pull-up", Kind.RESISTANCE, "in the control unit"),
    ),
    source="Ohm's law, read with a meter that does not load the line (10 MΩ)",
    example="5.00V 0.82V 2.2k",
    work=_pulled_up,
    check=_not_above_open,
    remarks=_nothing_pulls,
    keywords="request line switch contact film sensor signal input",
)

SUMS = (SERIES, PARALLEL, DIVIDER, PULLED_UP)
