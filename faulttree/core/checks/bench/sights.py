"""sight-fits, unknown-state: a sight has a key that says nothing there, or can never hold."""

from collections.abc import Iterator, Mapping

from faulttree.core.bench.document import BenchSheet, Sight
from faulttree.core.checks.bench.walks import sights_in
from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.circuit.amounts import si
from faulttree.core.expression import ExpressionError
from faulttree.core.uncertain import CannotWorkOut

Wrong = tuple[DocumentPath, str, str]

_STATES: Mapping[str, tuple[str, ...]] = {
    "pulls": ("in", "out", "chatters"),
    "reads": ("low", "high"),
}


def check(sheet: BenchSheet) -> Iterator[Finding]:
    """One finding for each key of a sight that does nothing, and for each sight without effect."""
    for at, sight in sights_in(sheet):
        for path, message, help in (*_idle_keys(sight), *_never(sight)):
            yield Finding("sight-fits", at + path, message, help)
        for subject, states in _STATES.items():
            for index, state in enumerate(sight.is_ if getattr(sight, subject) else ()):
                if state not in states:
                    message = f"{subject} is {', '.join(states[:-1])} or {states[-1]}, not {state}"
                    help = nearest(state, states)
                    yield Finding("unknown-state", (*at, "is", index), message, help)


def _idle_keys(sight: Sight) -> Iterator[Wrong]:
    measured = sight.input is not None and not sight.is_
    has_edge = sight.current or sight.voltage or sight.light or measured
    if sight.about is not None and not has_edge:
        message = "about is how far an edge is judged by eye, and there is none here"
        yield ("about",), message, "Use it with current, voltage, light, or a measured input."
    if sight.may_miss and sight.faulty is None:
        yield ("may-miss",), "only what an inspection shows may be missed", "Use it with faulty."
    if sight.at and (sight.faulty is not None or (sight.input is not None and sight.is_)):
        subject = "faulty" if sight.faulty is not None else "input"
        message = f"{subject} is the same however the car is set"
        yield ("at",), message, "Take at out."


def _never(sight: Sight) -> Iterator[Wrong]:
    lists = {"any": sight.any, "all": sight.all, "not": sight.not_, "faulty": sight.faulty}
    for key, inside in lists.items():
        if inside == ():
            yield (key,), f"{key} has nothing in it", "Fill it, or take the sight out."
    low, high = _edges(sight)
    if low is not None and high is not None and low >= high:
        message = "nothing lies in this range: it begins where it has ended"
        yield ("below",), message, "from lies below below."


def _edges(sight: Sight) -> tuple[float | None, float | None]:
    """Both edges [SI], where the sight has both and each is a number of one kind."""
    if sight.from_ is None or sight.below is None:
        return None, None
    try:
        kinds = sight.from_.quantities({}) & sight.below.quantities({})
        if not kinds:
            return None, None
        kind = min(kinds)  # a range of degrees is empty, be it temperatures or differences
        return si(sight.from_, kind), si(sight.below, kind)
    except (ExpressionError, CannotWorkOut):
        return None, None
