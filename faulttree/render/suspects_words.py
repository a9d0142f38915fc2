"""Probabilities, likelihoods and readings in words, for all that tells of suspects."""

from collections.abc import Iterable

from faulttree.core.figures import show
from faulttree.core.suspects.evidence import Read
from faulttree.core.suspects.ranking import Ranked
from faulttree.core.suspects.shares import Share
from faulttree.core.tree import Measure
from faulttree.core.walk.state import WalkState
from faulttree.render import answers
from faulttree.render.faults_here import halves, of_element

NONE = "none of these: a fault not in the model, or none"
LEAST = 0.005
"""Shares below this are told as below 1 %, and parts with less are told together."""
_MOST_TIMES = 1000.0
"""From here on it makes no difference how many times."""


def odds_of(source: str) -> str:
    """What percents are, said once wherever they are shown.

    Args:
        source: what they are worked out from.
    """
    return f"Percent are odds of this {source}, not certainties."


def percent(share: float) -> str:
    """`33 %`; never 0 and never 100, because the odds are never certain."""
    return f"{_number(share)} %"


def percent_in_words(share: float) -> str:
    """The same for readers of a report: `below 1 %` in place of `<1 %`."""
    return percent(share).replace("<", "below ").replace(">", "over ")


def _number(share: float) -> str:
    if share < LEAST:
        return "<1"
    return ">99" if share >= 1.0 - LEAST else f"{100 * share:.0f}"


def change(share: Share) -> str:
    """What the last reading changed: `up: 7 → 33 %`."""
    now, before = _number(share.now), _number(share.before)
    if now == before:
        return "as before"
    return f"{'up' if share.now > share.before else 'down'}: {before} → {now} %"


def bar(share: float, width: int) -> str:
    """The share as a bar of ASCII, so that every terminal shows it."""
    least = 1 if share >= LEAST else 0
    full = min(width, max(least, round(share * width)))
    return "#" * full + "." * (width - full)


def times(factor: float) -> str:
    """How strongly a reading speaks: `40 times as likely with this fault`, or without it."""
    side, factor = ("with", factor) if factor >= 1.0 else ("without", 1.0 / factor)
    if factor >= _MOST_TIMES:
        return f"over {_MOST_TIMES:.0f} times as likely {side} this fault"
    number = f"{factor:.1f}".removesuffix(".0") if factor < 10.0 else f"{factor:.2g}"
    if "e" in number:
        number = f"{round(factor, -1):.0f}"
    often = "twice" if number == "2" else f"{number} times"
    return f"{often} as likely {side} this fault"


def reading(state: WalkState, read: Read) -> str:
    """Where and what was read or seen: `Feed at the motor, 12.3 V`."""
    title = answers.title(state, read.step_id)
    comma = "" if title.endswith("?") else ","
    return f"{title}{comma} {_value(state, read)}"


def _value(state: WalkState, read: Read) -> str:
    step = state.tree.steps[read.step_id]
    if read.value is None or not isinstance(step, Measure):
        return read.outcome
    digit = getattr(state.readings[read.seq][0], "digit", 0.0) or None
    return show(read.value.value, step.quantity, state.units, digit)


def fault(ranked: Ranked) -> str:
    """What is wrong, without the element where that is called as its part."""
    return faults((ranked,))


def faults(ranked: Iterable[Ranked]) -> str:
    """Faults of one part, those of an element together: `socket terminal 87: open, shorted`."""
    found: dict[str, list[str]] = {}
    for each in ranked:
        element, wrong = halves(each.suspect.words)
        found.setdefault("" if element == each.suspect.part else element, []).append(wrong)
    return "; ".join(of_element(element, wrongs) for element, wrongs in found.items())
