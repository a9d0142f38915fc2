"""What counting tells, in words that claim no more than the numbers: before a repair and after."""

from collections.abc import Sequence
from math import ceil

from faulttree.core.proving import clean_cycles_needed, highest_chance
from faulttree.core.walk.events import Complaint, ComplaintChanged, Event, TriesCounted
from faulttree.core.walk.proving_run import (
    ProvingRun,
    Tries,
    cycles_wanted,
    proving_run,
    tries_before,
)
from faulttree.core.walk.state import WalkState

_SEEN_OFTEN_ENOUGH = 3
"""Times seen from which going on counting saves little."""
_WORTH_IT = 0.75
"""Share of the cycles that counting on has to come down to before it is advised."""


def counted(state: WalkState, step_id: str) -> str:
    """What the tries counted so far mean for the proving run; empty while none was counted."""
    run = proving_run(state, step_id)
    if run is not None:
        return basis(run)
    told, before = state.tries, tries_before(state, step_id)
    if told is None or before is None:
        return ""
    wanted = cycles_wanted(before, told.confidence)
    if wanted is None:
        return _never_seen(told)
    sure = _percent(told.confidence)
    text = (
        f"It showed in {before.seen} of {before.tries} tries: after the repair {_cycles(wanted)} "
        f"in a row will do ({sure} confidence)."
    )
    return f"{text}{_worth_counting_on(before, wanted, told.confidence)}"


def just_counted(state: WalkState, events: Sequence[Event]) -> str:
    """What to say when tries were counted or taken back; empty when these events did neither."""
    steps = [event.step for event in events if isinstance(event, TriesCounted)]
    if not steps:
        return ""
    return counted(state, steps[-1]) or "How often it shows is not counted."


def count_first(state: WalkState) -> str:
    """Advice to count while the fault is still there, where a complaint comes and goes."""
    comes_and_goes = any(
        isinstance(e, ComplaintChanged) and e.complaint in (Complaint.ABSENT, Complaint.PROVOKED)
        for e in state.events
    )
    if not comes_and_goes or state.tries is not None:
        return ""
    return (
        "It comes and goes: while the fault is still there, count how often it shows, provoked as "
        "in the proving run (key t, or: tries 3 of 10)."
    )


def basis(run: ProvingRun) -> str:
    """Why so many clean cycles are wanted; empty where the tree says so."""
    if run.before is None:
        return ""
    if not run.before.seen:
        return _cannot_tell(run.before)
    told = f"It showed in {run.before.seen} of {run.before.tries} tries"
    if run.returns:
        return (
            f"{told}, this run counted in: {run.wanted} clean in a row are wanted now, for "
            "a new start is a new chance to be lucky."
        )
    left = _in_hundred(1 - run.confidence)
    more = f"; the tree asks for {run.asked_by_tree}" if run.asked_by_tree > run.wanted else ""
    return f"{told} before: {run.wanted} clean in a row would be luck of at most {left}{more}."


def so_far(run: ProvingRun) -> str:
    """What chance the clean cycles so far leave, and what those wanted would leave."""
    rate, at_end = run.largest_rate(), run.largest_rate(run.wanted)
    parts = [(run.clean, rate)] if rate is not None and not run.is_done else []
    parts.append((run.wanted, at_end or 1.0))
    told = "; ".join(f"{clean} clean, at most {_above(each)}" for clean, each in parts)
    return f"Chance per try that can be left: {told} ({_percent(run.confidence)} confidence)."


def done(run: ProvingRun) -> str:
    """What a run that is long enough proves, and that the tree asks for more, where it does."""
    text = f"{_cycles(run.clean)}{' in a row' if run.clean > 1 else ''}. {proves(run)}"
    if run.clean < run.asked_by_tree:
        text += f" The tree asks for {run.asked_by_tree}: more leave less room for what is rare."
    return _first_capital(text)


def proves(run: ProvingRun) -> str:
    """What a run proves, in one sentence; empty before the first cycle."""
    rate = run.largest_rate()
    if rate is None:
        return "It came back in the last cycle, so nothing is proved." if run.cycles else ""
    hundred = f"{100 * run.confidence:g} of 100"
    kept_out = (
        f"what shows in {_above(rate)} of tries or more would have come back in {hundred} such "
        "runs, and what shows less often may still be there."
    )
    return _first_capital(f"{_against_luck(run)}{kept_out}")


def _against_luck(run: ProvingRun) -> str:
    """What a run says about the repair itself, as the first part of a sentence."""
    if run.before is None:
        return ""
    if run.luck is None:
        return f"{_cannot_tell(run.before).removesuffix('.')}; "
    begun = f", and the run was begun {run.returns + 1} times" if run.returns else ""
    return (
        f"had nothing been changed, so long a clean run after it showed in {run.before.seen} of "
        f"{run.before.tries} tries would be luck of at most {_in_hundred(run.luck)}{begun}; "
    )


def _cannot_tell(before: Tries) -> str:
    return (
        f"It did not show in {before.tries} tries before either: a clean run cannot tell whether "
        "the repair changed anything."
    )


def _never_seen(told: TriesCounted) -> str:
    rate = highest_chance(0, told.tries, told.confidence)
    return (
        f"It did not show in {told.tries} tries: before it has been seen, no clean run can tell "
        f"whether a repair changed anything. At most {_above(rate)} chance per try is left "
        f"({_percent(told.confidence)} confidence)."
    )


def _worth_counting_on(before: Tries, wanted: int, confidence: float) -> str:
    """Advice to go on counting before the repair, where that shortens the work."""
    if before.seen >= _SEEN_OFTEN_ENOUGH:
        return ""
    tries = ceil(before.tries * _SEEN_OFTEN_ENOUGH / before.seen)
    fewer = clean_cycles_needed(_SEEN_OFTEN_ENOUGH, tries, confidence)
    more = tries - before.tries
    if more + fewer > _WORTH_IT * wanted:
        return ""
    return (
        f" Counted on until it has shown {_SEEN_OFTEN_ENOUGH} times, some {more} more tries, about "
        f"{fewer} would do."
    )


def _cycles(count: int) -> str:
    return "one clean cycle" if count == 1 else f"{count} clean cycles"


def _percent(share: float) -> str:
    return f"{100 * share:g} %"


def _above(rate: float) -> str:
    """A rate in whole percent, rounded up: it must not claim more than was found."""
    return f"{min(100, ceil(100 * rate - 1e-9))} %"


def _in_hundred(chance: float) -> str:
    return f"{max(1, ceil(100 * chance - 1e-9))} in 100"


def _first_capital(text: str) -> str:
    return text[:1].upper() + text[1:]
