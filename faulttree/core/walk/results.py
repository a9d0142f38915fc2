"""What an answer comes to, and how an option is named. Shared by all that answers mean."""

from collections.abc import Callable
from dataclasses import dataclass

from faulttree.core.walk.asks import Ask, Option
from faulttree.core.walk.events import Event
from faulttree.core.walk.state import WalkState


@dataclass(frozen=True, slots=True)
class Recorded:
    """Accepted: these events are to be recorded, in this order."""

    events: tuple[Event, ...]


@dataclass(frozen=True, slots=True)
class Confirm:
    """Possible but unlikely: ask once, then answer again with `confirmed`."""

    question: str


@dataclass(frozen=True, slots=True)
class NeedsReason:
    """Accepted once it is said why."""

    question: str


@dataclass(frozen=True, slots=True)
class Refused:
    """Not an answer; the sentence says what to do."""

    message: str


Result = Recorded | Confirm | NeedsReason | Refused


@dataclass(frozen=True, slots=True)
class Typed:
    """What a person answered.

    Attributes:
        text: the answer itself.
        now: the time of it.
        confirmed: the question asked once was answered with yes.
        reason: why, where that is wanted.
    """

    text: str
    now: str
    confirmed: bool = False
    reason: str = ""


Response = Callable[[WalkState, Ask, Typed], Result]
"""What an answer to one kind of question comes to."""


def choose(ask: Ask, text: str) -> Option | None:
    """The option a text names: its key, its label, or a beginning that fits only one label."""
    wanted = text.strip().lower()
    for option in ask.options:
        if wanted in (option.key.lower(), option.label.lower()):
            return option
    begun = [o for o in ask.options if wanted and o.label.lower().startswith(wanted)]
    return begun[0] if len(begun) == 1 else None


def by_option(take: Callable[[WalkState, Ask, Typed, Option], Result]) -> Response:
    """Let a response be handed the option that was named; what names none is refused."""

    def response(state: WalkState, ask: Ask, typed: Typed) -> Result:
        option = choose(ask, typed.text)
        if option is not None:
            return take(state, ask, typed, option)
        keys = ", ".join(o.key for o in ask.options)
        which = keys if len(ask.options) == 1 else f"one of {keys}"
        return Refused(f"“{typed.text.strip()}” is not one of the answers; type {which}.")

    return response
