"""Current through a blade fuse, from the millivolts across it."""

from collections.abc import Iterator, Sequence

from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.sums import Answer, Input, Sum, SumRefused, Values

FUSE_MILLIOHM: dict[str, dict[float, float]] = {
    "standard": {2: 53.5, 3: 31.1, 4: 22.8, 5: 17.9, 7.5: 10.9, 10: 7.7, 15: 4.8, 20: 3.4,
                 25: 2.5, 30: 2.0, 40: 1.4},
    "mini": {2: 54, 3: 32, 4: 22.5, 5: 17.3, 7.5: 10.6, 10: 7.4, 15: 4.6, 20: 3.2, 25: 2.4,
             30: 1.9},
    "maxi": {20: 3.3, 30: 1.9, 40: 1.4, 50: 1.05, 60: 0.8, 70: 0.66, 80: 0.57},
}  # fmt: skip
"""Cold resistance by type and rating [mohm]. Source: makers' data sheets, from memory, except:
standard 10 A, 1 mV at 130 mA, a trade school's table; standard 15 A, 4.8 mohm, a maker's sheet as
quoted, and 4.5 mohm as measured by a scope maker; mini 15 A, 1 mV at 218 mA, a trade magazine's
chart (2017)."""
SPREAD = {"standard": 0.15, "mini": 0.15, "maxi": 0.25}
"""How far a fuse may be from these figures; common practice, no source. A 15 A fuse measured by a
scope maker lay 6 % below its sheet."""
WARM_FROM = 0.5
"""Share of its rating from which a fuse is warm enough to have a greater resistance; common
practice, no source."""


def fuse_ohm(kind: str, rating_a: float) -> float | None:
    """Cold resistance [ohm], or None for a rating that this type is not made in."""
    milliohm = FUSE_MILLIOHM[kind].get(rating_a)
    return None if milliohm is None else milliohm / 1000


def _ohm(values: Values) -> float:
    ohm = fuse_ohm(values.word("type"), values["rating"])
    assert ohm is not None
    return ohm


def _current(values: Values) -> Sequence[Answer]:
    ohm, spread = _ohm(values), SPREAD[values.word("type")]
    amps = values["drop"] / ohm
    return [
        Answer("current", Kind.CURRENT, amps, amps / (1 + spread), amps / (1 - spread)),
        Answer("fuse taken as", Kind.RESISTANCE, ohm, ohm * (1 - spread), ohm * (1 + spread)),
    ]


def _is_made(values: Values) -> None:
    kind, rating = values.word("type"), values["rating"]
    if fuse_ohm(kind, rating) is None:
        made = ", ".join(f"{each:g}" for each in FUSE_MILLIOHM[kind])
        raise SumRefused(f"No figure for a {kind} fuse of {rating:g} A; there are {made} A.")


def _hints(values: Values, answers: Sequence[Answer]) -> Iterator[str]:
    if answers[0].value > WARM_FROM * values["rating"]:
        yield "Above half its rating a fuse is warm: the true current is up to a third less."
    yield (
        "Makes differ, and cheap fuses may be far off: it tells which circuit draws, not exactly "
        "how much. Probe the metal tips, leave the fuse in, and wait until all units sleep."
    )


FUSE_CURRENT = Sum(
    name="fuse-current",
    title="current through a blade fuse by its millivolts",
    formula="current = drop ÷ resistance of the fuse, by its type and rating",
    symbols="I = V/R",
    inputs=(
        Input("drop", Kind.VOLTAGE, "across it", unit_needed=True, zero=True, like="1.3mV"),
        Input("rating", Kind.CURRENT, "stamped on it", like="10A"),
        Input("type", Kind.WORD, "mini, standard or maxi blade", choices=tuple(FUSE_MILLIOHM)),
    ),
    source=(
        "makers' data sheets, from memory; 10 A and 15 A checked against a trade school's table, "
        "a maker's sheet and a trade magazine's chart; the spread is common practice"
    ),
    example="1.3mV 10A standard",
    work=_current,
    check=_is_made,
    remarks=_hints,
    keywords="millivolt parasitic draw key-off blade drain",
)

SUMS = (FUSE_CURRENT,)
