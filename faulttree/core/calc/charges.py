"""Refrigerant by weight: the balance of a charge, and the charge of a conversion."""

from collections.abc import Iterator, Sequence

from faulttree.core.air_conditioning.charge import (
    CONVERSION,
    RIGHT_WITHIN_KG,
    Band,
    balance,
    conversion_charge,
)
from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.meaning import meaning
from faulttree.core.calc.sums import Answer, Input, Sum, Values
from faulttree.core.units import POUND_KG

LAW = (
    "Recover, never vent. For pay only certified people with approved equipment may do this; "
    "local codes and licensed practice come first."
)
_DRAWN, _NOT_DRAWN = "yes", "no"


def _balance(values: Values) -> Sequence[Answer]:
    label, out, put_in = values["label"], values["out"], values["in"]
    found = balance(label, out, put_in, evacuated=values.word("evacuated") == _DRAWN)
    return [
        Answer("was in", Kind.MASS, out, *found.was_in),
        *_off("was short by", "was over by", label - out, (label - found.was_in[1], label - out)),
        Answer("in it now", Kind.MASS, put_in, *found.now),
        *_off("still to add", "now over by", label - put_in, found.to_add),
    ]


def _off(short: str, over: str, lacking: float, limits: Band) -> Sequence[Answer]:
    """What lacks up to the label [kg], below zero too much: as two answers, neither below zero."""
    low, high = limits
    return [
        Answer(short, Kind.MASS, max(0.0, lacking), max(0.0, low), max(0.0, high)),
        Answer(over, Kind.MASS, max(0.0, -lacking), max(0.0, -high), max(0.0, -low)),
    ]


def _lacking(short: Answer, over: Answer) -> Answer:
    """The two answers as one again, below zero for too much."""
    (least, most), (least_over, most_over) = short.limits, over.limits
    lacking = short.value - over.value
    return Answer(short.name, short.kind, lacking, least - most_over, most - least_over)


def _balance_means(values: Values, answers: Sequence[Answer]) -> Iterator[str]:
    near = RIGHT_WITHIN_KG[1]
    right = f"right, within {near * 1e3:.0f} g ({near / POUND_KG * 16:.0f} oz)"
    _was_in, was_short, was_over, _in_now, to_add, now_over = answers
    yield meaning(
        _lacking(was_short, was_over),
        (-near, near),
        (
            "Before: overcharged",
            f"Before: {right}",
            "Before: short; look for the leak before you charge, and expect oil lost with it",
        ),
    )
    if values["in"]:
        yield meaning(
            _lacking(to_add, now_over),
            (-near, near),
            (
                "Now: too much; recover all and weigh in anew",
                f"Now: {right}",
                "Now: short of the label",
            ),
        )
    if values.word("evacuated") == _NOT_DRAWN:
        yield "Not evacuated: air and moisture stay in, and up to 5 % of what was in before."
    yield (
        "Oil is not counted: weigh what came out with the refrigerant and take it off. What is in "
        "the hoses counts, if it was not drawn in. A service machine may be 14 g (0.5 oz) off: "
        "in=790g±14g."
    )
    yield LAW


def _conversion(values: Values) -> Sequence[Answer]:
    least, most = conversion_charge(values["label"])
    return [Answer("R-134a", Kind.MASS, (least + most) / 2, least, most)]


def _conversion_means(_values: Values, _answers: Sequence[Answer]) -> Iterator[str]:
    yield (
        "A conversion label or the car maker's figure goes before it. Begin with the least, and "
        "judge by superheat, subcooling and vent."
    )
    yield (
        "Expect high side pressures 10 to 20 % above the car's R-12 figures and a vent 1 to 3 K "
        "(2 to 5 °F) warmer (common practice)."
    )
    yield (
        "Before: all R-12 recovered, nothing mixed; oil that suits R-134a, a high-pressure "
        "cut-out, sound hoses, its own fittings and a label that names refrigerant, weight, oil, "
        "date and who did it (US: 40 CFR 82 subpart G)."
    )
    yield LAW


CHARGE_BALANCE = Sum(
    name="charge-balance",
    title="what was in, is in, and has still to go in",
    formula="was in = weighed out, or up to that ÷ 0.95; to add = label - in it now",
    symbols="m1 = out … out/0.95, m2 = in + (m1 - out if not evacuated)",
    inputs=(
        Input("label", Kind.MASS, "charge that the label names"),
        Input("out", Kind.MASS, "weighed out, without oil", zero=True),
        Input("in", Kind.MASS, "weighed in since", default="0g", zero=True),
        Input(
            "evacuated",
            Kind.WORD,
            "whether a vacuum was drawn in between: yes or no",
            default=_DRAWN,
            choices=(_DRAWN, _NOT_DRAWN),
        ),
    ),
    source=(
        "95 % or more comes out: 40 CFR 82 subpart B appendix C (SAE J2788); within "
        f"{RIGHT_WITHIN_KG[0] * 1e3:.0f} to {RIGHT_WITHIN_KG[1] * 1e3:.0f} g of the label: "
        "US Army TM 5-3805-290-23-1"
    ),
    example="800g 610g 790g",
    work=_balance,
    remarks=_balance_means,
    keywords="ac air conditioning refrigerant recovery weigh undercharge overcharge residue scale",
)

CONVERSION_CHARGE = Sum(
    name="conversion-charge",
    title="R-134a for a system made for R-12",
    formula=f"{CONVERSION[0] * 100:.0f} to {CONVERSION[1] * 100:.0f} % of the weight of R-12",
    symbols="m = 0.80·m12 … 0.90·m12",
    inputs=(Input("label", Kind.MASS, "R-12 that the label names"),),
    source="common practice",
    example="1100g",
    work=_conversion,
    remarks=_conversion_means,
    keywords="ac air conditioning retrofit r12 r134a refrigerant weight",
)

SUMS = (CHARGE_BALANCE, CONVERSION_CHARGE)
