"""Complaints that come and go: tries to see one, clean cycles that prove a repair."""

from collections.abc import Iterator, Sequence

from faulttree.core import proving
from faulttree.core.calc.kinds import Kind
from faulttree.core.calc.sums import Answer, Input, Sum, SumRefused, Values

_CONFIDENCE = Input("confidence", Kind.SHARE, "that is wanted", default="95%")
_SEEN = Input("seen", Kind.COUNT, "times it showed before the repair")
_TRIES = Input("tries", Kind.COUNT, "tries in which it was counted")
_SEEN_MAYBE = Input(_SEEN.name, _SEEN.kind, _SEEN.words, optional=True)
_TRIES_MAYBE = Input(_TRIES.name, _TRIES.kind, _TRIES.words, optional=True)
_HIT = Input(
    "hit", Kind.SHARE, "chance that the repair hit the fault, as you judge it", optional=True
)
_ALIKE = "Cycles count only when they are alike: the same provocation, heat and load."
_A_GUESS = "What rests on hit is as good as that guess; the record rests on the counts alone."


def _whole(values: Values, name: str) -> int:
    return int(values[name])


def _needed(values: Values) -> Sequence[Answer]:
    seen, tries, wanted = _whole(values, "seen"), _whole(values, "tries"), values["confidence"]
    before = proving.chance_limits(seen, tries)
    answers = [
        Answer("clean cycles", Kind.COUNT, proving.clean_cycles_needed(seen, tries, wanted)),
        Answer("chance before", Kind.SHARE, seen / tries, before.low, before.high),
    ]
    if "hit" in values:
        enough = proving.clean_cycles_for_belief(values["hit"], seen, tries, wanted)
        answers.append(Answer("with that guess", Kind.COUNT, enough))
    return answers


def _counts_fit(values: Values) -> None:
    _confidence_fits(values)
    if ("seen" in values) != ("tries" in values):
        raise SumRefused("Give seen and tries together, as seen=3 tries=10.")
    if "seen" in values and values["seen"] > values["tries"]:
        raise SumRefused("It cannot be seen more often than it was tried: type seen=3 tries=10.")
    if "hit" in values:
        if values["hit"] > 1:
            raise SumRefused("The chance that the repair hit is at most 100 %: type hit=70%.")
        if "seen" not in values:
            raise SumRefused("hit needs the counts from before too: seen=3 tries=10 hit=70%.")


def _confidence_fits(values: Values) -> None:
    if "confidence" in values and not values["confidence"] < 1:
        raise SumRefused("A confidence lies below 100 %: type confidence=95%.")


def _needed_remarks(values: Values, answers: Sequence[Answer]) -> Iterator[str]:
    yield "It is kept best when the tries before were counted until it had shown a chosen number."
    yield from _run_remarks(values, answers)


def _run_remarks(values: Values, _answers: Sequence[Answer]) -> Iterator[str]:
    yield _ALIKE
    if "hit" in values:
        yield _A_GUESS


def _promise(values: Values) -> Sequence[Answer]:
    clean = _whole(values, "clean")
    rate = proving.largest_rate(clean, values["confidence"])
    answers = [Answer("returns in at most", Kind.SHARE, rate)]
    if "seen" in values:
        counts = _whole(values, "seen"), _whole(values, "tries"), clean
        luck = proving.chance_if_unchanged(*counts)
        answers.append(Answer("luck if unchanged", Kind.SHARE, luck))
        if "hit" in values:
            gone = proving.chance_repaired(values["hit"], *counts)
            answers.append(Answer("repaired, by that guess", Kind.SHARE, gone))
    return answers


def _tries(values: Values) -> Sequence[Answer]:
    rate = values["chance"]
    return [
        Answer("tries", Kind.COUNT, proving.tries_to_see(rate, values["confidence"])),
        Answer("on average", Kind.COUNT, proving.expected_tries(rate)),
    ]


def _chance_fits(values: Values) -> None:
    _confidence_fits(values)
    if values["chance"] > 1:
        raise SumRefused("A chance is at most 100 %: type 30%.")


def _time_needed(values: Values) -> Sequence[Answer]:
    seen, watched = _whole(values, "seen"), values["watched"]
    needed = proving.clean_time_needed(seen, watched, values["confidence"])
    return [Answer("clean time", Kind.TIME, needed)]


CLEAN_CYCLES = Sum(
    name="clean-cycles",
    title="clean cycles in a row that prove a repair",
    formula="fewest m with C(tries, seen) ÷ C(tries + m, seen) no more than 1 - confidence",
    symbols="C(n, k)/C(n + m, k) ≤ 1 - c",
    inputs=(_SEEN, _TRIES, _CONFIDENCE, _HIT),
    source="one-sided exact test of Fisher (1935); limits of the chance: Clopper and Pearson "
    "(1934); with hit: Bayes' rule",
    example="3 10",
    work=_needed,
    check=_counts_fit,
    remarks=_needed_remarks,
    keywords="proof proving run intermittent repair",
)

CLEAN_RUN = Sum(
    name="clean-run",
    title="what a number of clean cycles promises",
    formula="rate = 1 - (1 - confidence) to the power of 1 ÷ cycles; about 3 ÷ cycles for 95 %",
    symbols="p = 1 - (1 - c)^(1/m)",
    inputs=(
        Input("clean", Kind.COUNT, "clean cycles in a row"),
        _CONFIDENCE,
        _SEEN_MAYBE,
        _TRIES_MAYBE,
        _HIT,
    ),
    source="exact binomial limit, Clopper and Pearson (1934); with seen and tries: exact test of "
    "Fisher (1935); with hit: Bayes' rule",
    example="20",
    work=_promise,
    check=_counts_fit,
    remarks=_run_remarks,
    keywords="proof proving intermittent repair rate bound cycles",
)

TRIES = Sum(
    name="tries",
    title="tries to see a complaint, or to rule it out",
    formula="tries = ln(1 - confidence) ÷ ln(1 - chance), rounded up",
    symbols="n = ln(1 - c)/ln(1 - p)",
    inputs=(
        Input("chance", Kind.SHARE, "that it shows in one try", unit_needed=True),
        _CONFIDENCE,
    ),
    source="geometric distribution; success-run theorem",
    example="20%",
    work=_tries,
    check=_chance_fits,
    keywords="intermittent provoke how often chance see",
)

CLEAN_TIME = Sum(
    name="clean-time",
    title="time without the complaint that proves a repair",
    formula="clean time = watched × ((1 - confidence) to the power of -1 ÷ seen - 1)",
    symbols="t = T·((1 - c)^(-1/k) - 1)",
    inputs=(
        Input("seen", Kind.COUNT, "times it came while watched, before the repair"),
        Input("watched", Kind.TIME, "how long that was", unit_needed=True),
        _CONFIDENCE,
    ),
    source="conditional test of two Poisson counts, Przyborowski and Wilenski (1940)",
    example="3 2h",
    work=_time_needed,
    check=_confidence_fits,
    keywords="proof proving intermittent repair hours drive",
)

SUMS = (CLEAN_CYCLES, CLEAN_RUN, CLEAN_TIME, TRIES)
