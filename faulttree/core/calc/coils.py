"""Copper windings: relay, clutch and solenoid coils, hot and cold."""

from collections.abc import Iterator, Sequence

from faulttree.core.calc.amounts import COLDEST_K
from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.sums import Answer, Input, Sum, SumRefused, Values
from faulttree.core.circuit.laws import COPPER_PER_K, copper_factor
from faulttree.core.units import ZERO_C

_SOURCE = "copper: 0.393 % per kelvin at 20 °C (NBS Handbook 100)"
_TWENTY_K = ZERO_C + 20
_AT = Input("at", Kind.TEMPERATURE, "when its resistance was measured", default="20C", signed=True)


def _coil(values: Values) -> Sequence[Answer]:
    cold = values["resistance"]
    hot = cold * copper_factor(values["hot"]) / copper_factor(values["at"])
    return [
        Answer("current cold", Kind.CURRENT, values["voltage"] / cold),
        Answer("current hot", Kind.CURRENT, values["voltage"] / hot),
        Answer("resistance hot", Kind.RESISTANCE, hot),
        Answer("power hot", Kind.POWER, values["voltage"] ** 2 / hot),
    ]


def _winding(values: Values) -> Sequence[Answer]:
    factor = values["hot"] / values["cold"] * copper_factor(values["at"])
    return [Answer("temperature", Kind.TEMPERATURE, _TWENTY_K + (factor - 1) / COPPER_PER_K)]


def _above_zero(values: Values) -> None:
    if _winding(values)[0].value < COLDEST_K:
        raise SumRefused(
            "No copper is as cold as that: the cold resistance comes first, "
            "as in calc winding-temperature 3.6ohm 4.7ohm."
        )


def _only_copper(_values: Values, _answers: Sequence[Answer]) -> Iterator[str]:
    yield "A coil with a resistor, diode or driver in series does not follow it."


COIL = Sum(
    name="coil-current",
    title="current of a relay or clutch coil, cold and hot",
    formula="hot resistance = cold × (1 + 0.00393 × (hot - 20)) ÷ (1 + 0.00393 × (cold - 20))",
    symbols="I = V/R, R = R0·(1 + 0.00393·(T - 20))/(1 + 0.00393·(T0 - 20))",
    inputs=(
        Input("resistance", Kind.RESISTANCE, "measured cold"),
        Input("voltage", Kind.VOLTAGE, "at the coil while it is driven"),
        Input("hot", Kind.TEMPERATURE, "of the winding when hot", default="100C", signed=True),
        _AT,
    ),
    source=_SOURCE,
    example="3.6ohm 12.6V",
    work=_coil,
    remarks=_only_copper,
    keywords="relay clutch solenoid compressor winding copper temperature",
)

WINDING = Sum(
    name="winding-temperature",
    title="how hot a copper winding is, by its resistance",
    formula="hot = 20 °C + (hot ÷ cold × (1 + 0.00393 × (cold °C - 20)) - 1) ÷ 0.00393",
    symbols="T = 20 + (R/R0·(1 + 0.00393·(T0 - 20)) - 1)/0.00393",
    inputs=(
        Input("cold", Kind.RESISTANCE, "measured cold"),
        Input("hot", Kind.RESISTANCE, "measured hot, at once after switching off"),
        _AT,
    ),
    source=_SOURCE,
    example="3.6ohm 4.7ohm",
    work=_winding,
    check=_above_zero,
    keywords="coil relay clutch motor solenoid copper",
)

SUMS = (COIL, WINDING)
