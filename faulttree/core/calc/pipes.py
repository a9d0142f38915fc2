"""Pipes of an air conditioner: superheat, subcooling, condensing split, approach."""

from collections.abc import Iterator, Sequence

from faulttree.core.air_conditioning.on_gauges import BY_WEIGHT
from faulttree.core.air_conditioning.splits import (
    FLOODING_K,
    NORMAL_SUBCOOLING_K,
    NORMAL_SUPERHEAT_K,
    OVERFULL_K,
    SHORT_K,
    STARVED_K,
    condensing_split,
    subcooling,
    superheat,
)
from faulttree.core.air_conditioning.windows import (
    SPLIT_SOURCE,
    USUAL_SPLIT_K,
    condensing_split_window,
)
from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.meaning import meaning
from faulttree.core.calc.refrigerants import (
    AIR_OUTSIDE,
    AIR_SOURCE,
    HIGH_RUNNING,
    LOW_RUNNING,
    REFRIGERANT,
    SATURATION_SOURCE,
    absolute,
    known,
    refrigerant,
)
from faulttree.core.calc.sums import Answer, Input, Sum, Values
from faulttree.core.refrigerant.refrigerant import Refrigerant

_SOURCE = f"{SATURATION_SOURCE}; {AIR_SOURCE}"
_IMPOSSIBLE_K = -1.0
"""From here down the difference cannot be, but for errors [K]."""
_UNCLEAR_SPLIT_K = 38.0
"""Split above which something is wrong [K]; common practice."""
_AMBIENT = Input(
    "ambient", Kind.TEMPERATURE, "air that goes into the condenser", signed=True, like="30C or 86F"
)
_LIQUID = Input(
    "pipe",
    Kind.TEMPERATURE,
    "liquid pipe at the condenser's outlet",
    signed=True,
    like="44C or 111F",
)


def _both(*kelvins: float) -> str:
    """A difference, or one to another, in both units: `3 to 8 K (5 to 14 °F)`."""
    metric, us = (" to ".join(f"{k * per:.0f}" for k in kelvins) for per in (1.0, 1.8))
    return f"{metric} K ({us} °F)"


def _taken(values: Values, gauge: str, thermometer: str) -> tuple[Refrigerant, float, float]:
    """Refrigerant, pressure [Pa absolute] and temperature [K]."""
    return refrigerant(values), absolute(values, gauge), values[thermometer]


def _superheat(values: Values) -> Sequence[Answer]:
    kelvins = known(lambda: superheat(*_taken(values, "low", "pipe")), "low")
    return [
        Answer("superheat", Kind.TEMPERATURE_DIFFERENCE, kelvins),
        Answer("boils at", Kind.TEMPERATURE, values["pipe"] - kelvins),
    ]


def _subcooling(values: Values) -> Sequence[Answer]:
    kelvins = known(lambda: subcooling(*_taken(values, "high", "pipe")), "high")
    return [
        Answer("subcooling", Kind.TEMPERATURE_DIFFERENCE, kelvins),
        Answer("condenses at", Kind.TEMPERATURE, values["pipe"] + kelvins),
    ]


def _split(values: Values) -> Sequence[Answer]:
    kelvins = known(lambda: condensing_split(*_taken(values, "high", "ambient")), "high")
    return [
        Answer("split", Kind.TEMPERATURE_DIFFERENCE, kelvins),
        Answer("condenses at", Kind.TEMPERATURE, values["ambient"] + kelvins),
    ]


def _approach(values: Values) -> Sequence[Answer]:
    return [
        Answer("approach", Kind.TEMPERATURE_DIFFERENCE, values["pipe"] - values["ambient"]),
    ]


def _superheat_means(_values: Values, answers: Sequence[Answer]) -> Iterator[str]:
    yield meaning(
        answers[0],
        (_IMPOSSIBLE_K, FLOODING_K, *NORMAL_SUPERHEAT_K, STARVED_K),
        (
            "Below zero cannot be: check gauge, thermometer, place of both, and the refrigerant",
            "Flooding: liquid comes back to the compressor",
            "Less than usual, not yet flooding",
            "As usual",
            "More than usual, not yet starved",
            "Starved: the evaporator gets too little, by short charge, restriction or valve",
        ),
    )
    yield (
        f"At the evaporator's outlet {_both(*NORMAL_SUPERHEAT_K)} are usual, less than "
        f"{_both(FLOODING_K)} floods, {_both(STARVED_K)} or more starves (common practice)."
    )
    yield BY_WEIGHT


def _subcooling_means(_values: Values, answers: Sequence[Answer]) -> Iterator[str]:
    yield meaning(
        answers[0],
        (_IMPOSSIBLE_K, SHORT_K, *NORMAL_SUBCOOLING_K, OVERFULL_K),
        (
            "Below zero cannot be: check gauge, thermometer, place of both, and the refrigerant",
            "Short: there is hardly any liquid to cool",
            "Less than usual, not yet short",
            "As usual",
            "More than usual, not yet too much",
            "Too much: overcharged, or held up behind a restriction",
        ),
    )
    yield (
        f"At the condenser's outlet {_both(*NORMAL_SUBCOOLING_K)} are usual, about 0 is short of "
        f"charge, {_both(OVERFULL_K)} or more too much (common practice)."
    )
    yield BY_WEIGHT


def _split_means(values: Values, answers: Sequence[Answer]) -> Iterator[str]:
    usual = condensing_split_window(values["ambient"])
    if usual is None:
        yield "It is judged between 21 and 43 °C (70 and 110 °F) outside: no figures beyond."
        return
    yield meaning(
        answers[0],
        (usual.low, usual.high, _UNCLEAR_SPLIT_K),
        (
            "Little: there is little heat to get rid of, by short charge or a weak compressor",
            "As usual",
            "More than usual; look at it again with water or a fan on the condenser",
            "Too much: air through the condenser, overcharge, or air in the system",
        ),
    )
    yield (
        f"Usual are {_both(*USUAL_SPLIT_K)}, by the published pressures; above "
        f"{_both(_UNCLEAR_SPLIT_K)} something is wrong (common practice)."
    )


def _approach_means(_values: Values, answers: Sequence[Answer]) -> Iterator[str]:
    if answers[0].limits[1] < 0:
        yield "Below zero cannot be on a running system: check both thermometers and their place."
    (split, most_split), (cooled, most_cooled) = USUAL_SPLIT_K, NORMAL_SUBCOOLING_K
    yield (
        f"It is the condensing split less the subcooling: {split:.0f} to {most_split:.0f} K less "
        f"{cooled:.0f} to {most_cooled:.0f} K leaves "
        f"{_both(split - most_cooled, most_split - cooled)} (calculated from common practice), "
        "less at speed than at idle."
    )


SUPERHEAT = Sum(
    name="superheat",
    title="how much warmer vapour is than where it boiled",
    formula="superheat = pipe - saturation temperature of the low side's absolute pressure",
    symbols="SH = T - Tsat(p + pair)",
    inputs=(
        LOW_RUNNING,
        Input(
            "pipe",
            Kind.TEMPERATURE,
            "suction pipe where the gauge hangs",
            signed=True,
            like="9C or 48F",
        ),
        REFRIGERANT,
        *AIR_OUTSIDE,
    ),
    source=_SOURCE,
    example="190kPa 9C R-134a",
    work=_superheat,
    remarks=_superheat_means,
    keywords="ac air conditioning suction evaporator expansion valve flooding starved",
)

SUBCOOLING = Sum(
    name="subcooling",
    title="how much colder liquid is than it condensed",
    formula="subcooling = saturation temperature of the high side's absolute pressure - pipe",
    symbols="SC = Tsat(p + pair) - T",
    inputs=(HIGH_RUNNING, _LIQUID, REFRIGERANT, *AIR_OUTSIDE),
    source=_SOURCE,
    example="1350kPa 44C R-134a",
    work=_subcooling,
    remarks=_subcooling_means,
    keywords="ac air conditioning liquid condenser charge",
)

CONDENSING_SPLIT = Sum(
    name="condensing-split",
    title="how much hotter it condenses than the air",
    formula="split = saturation temperature of the high side's absolute pressure - ambient",
    symbols="dT = Tsat(p + pair) - Tair",
    inputs=(HIGH_RUNNING, _AMBIENT, REFRIGERANT, *AIR_OUTSIDE),
    source=f"{_SOURCE}; {SPLIT_SOURCE}",
    example="1350kPa 30C R-134a",
    work=_split,
    remarks=_split_means,
    keywords="ac air conditioning condenser fan airflow high side",
)

APPROACH = Sum(
    name="approach",
    title="how near the liquid pipe comes to the air",
    formula="approach = liquid pipe - air that goes into the condenser",
    symbols="dT = T - Tair",
    inputs=(_LIQUID, _AMBIENT),
    source="definition",
    example="44C 30C",
    work=_approach,
    remarks=_approach_means,
    keywords="ac air conditioning condenser liquid",
)

SUMS = (SUPERHEAT, SUBCOOLING, CONDENSING_SPLIT, APPROACH)
