"""What a meter makes of a point behind a resistance, and what resistance two meters show."""

from collections.abc import Iterator, Sequence

from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.sums import Answer, Input, Sum, SumRefused, Values, over

_METER = Input("meter", Kind.RESISTANCE, "input of the usual meter", default="10M")
_LOW = Input("low", Kind.RESISTANCE, "input of the low-impedance meter", default="2.5k ±0.5k")
_SOURCE = "Ohm's law; makers' guides: 10 MΩ, low-impedance 2 to 3 kΩ"


def _ghost(values: Values) -> Sequence[Answer]:
    volts, behind = values["open"], values["behind"]
    return [
        Answer(f"on the {name} meter", Kind.VOLTAGE, volts * meter / (meter + behind))
        for name, meter in (("usual", values["meter"]), ("low-impedance", values["low"]))
    ]


def _is_ghost(values: Values, answers: Sequence[Answer]) -> Iterator[str]:
    if answers[1].value < 0.5 * answers[0].value:
        yield (
            "The usual meter shows a voltage that cannot feed a load: a ghost. "
            "Judge such a point under load."
        )
    yield "Keep a low-impedance meter off sensor and control-unit lines."


def _source(values: Values) -> Sequence[Answer]:
    flows = [values["usual"] / values["meter"], values["loaded"] / values["low"]]
    behind = over(values["usual"] - values["loaded"], max(0.0, flows[1] - flows[0]))
    behind = max(0.0, behind) if values["usual"] > values["loaded"] else 0.0
    volts = values["usual"] + flows[0] * behind if behind else values["usual"]
    return [
        Answer("behind", Kind.RESISTANCE, behind),
        Answer("open", Kind.VOLTAGE, volts),
    ]


def _falls(values: Values) -> None:
    if values["loaded"] > values["usual"]:
        raise SumRefused(
            "The low-impedance meter cannot show more than the usual one: type the usual one's "
            "reading first, as in calc source-resistance 12.1V 3.2V."
        )
    if values["loaded"] == 0:
        raise SumRefused(
            "With 0 V under load nothing can be said of the resistance but that it is large; "
            "there may be no source at all."
        )


GHOST = Sum(
    name="ghost-voltage",
    title="what two meters show behind a resistance",
    formula="reading = open voltage × meter ÷ (meter + resistance behind)",
    symbols="V = Vo·Rm/(Rm + R)",
    inputs=(
        Input("open", Kind.VOLTAGE, "of the source, without a meter"),
        Input("behind", Kind.RESISTANCE, "between source and probe", zero=True),
        _METER,
        _LOW,
    ),
    source=_SOURCE,
    example="12.6V 1M",
    work=_ghost,
    remarks=_is_ghost,
    keywords="meter loading floating high impedance",
)

SOURCE = Sum(
    name="source-resistance",
    title="resistance behind a point, by two meters",
    formula="resistance = difference of the readings ÷ difference of the meters' currents",
    symbols="R = (V1 - V2)/(V2/R2 - V1/R1)",
    inputs=(
        Input("usual", Kind.VOLTAGE, "on the usual meter"),
        Input("loaded", Kind.VOLTAGE, "on the low-impedance meter", zero=True),
        _METER,
        _LOW,
    ),
    source=_SOURCE,
    example="12.1V 3.2V",
    work=_source,
    check=_falls,
    keywords="ghost meter loading behind internal",
)

SUMS = (GHOST, SOURCE)
