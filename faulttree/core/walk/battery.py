"""The battery voltage that a step is judged by: is there one, and does it still do?"""

from datetime import datetime

from faulttree.core.tree import BATTERY_AGE_LIMIT_S, BATTERY_VOLTAGE, Engine, Measure
from faulttree.core.walk.events import ReadingTaken
from faulttree.core.walk.state import WalkState


def battery_wanted(state: WalkState, step: Measure, now: str) -> bool:
    """True when the step is judged by a battery voltage that has to be measured again first."""
    if BATTERY_VOLTAGE not in step.names_used:
        return False
    return battery_trouble(state, step, now) is not None


def battery_trouble(state: WalkState, step: Measure, now: str) -> str | None:
    """Why the battery voltage known does not do for this step; None when it does."""
    seq = state.latest.get(BATTERY_VOLTAGE)
    if seq is None:
        return "The battery voltage has not been measured yet."
    event = state.readings[seq][0]
    age = age_s(event.at, now)
    if age is None:
        return "The clock was set back since the battery voltage was measured."
    if age > BATTERY_AGE_LIMIT_S:
        return f"The battery voltage is {age / 60:.0f} minutes old."
    if isinstance(event, ReadingTaken) and event.place.engine != step.set_up.engine:
        was = Engine(event.place.engine).words if event.place.engine else "in a state not recorded"
        return f"The battery voltage was taken with the engine {was}."
    return None


def age_s(then: str, now: str) -> float | None:
    """Seconds between two recorded times; None when the clock went backwards or is unreadable."""
    try:
        seconds = (datetime.fromisoformat(now) - datetime.fromisoformat(then)).total_seconds()
    except (ValueError, TypeError):
        return None
    return seconds if seconds >= 0 else None
