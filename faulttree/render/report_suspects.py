"""What the readings say, at the end of a report's findings: suspects, and how the finding fares."""

from collections.abc import Iterator

from faulttree.core.suspects.by_part import Part
from faulttree.core.suspects.explain import Speaks
from faulttree.core.suspects.ranking import Ranked
from faulttree.core.suspects.shares import share_of
from faulttree.core.suspects.suspected import Suspected
from faulttree.core.walk.path import position
from faulttree.core.walk.state import WalkState
from faulttree.render import suspects_words as say
from faulttree.render.markdown_text import words
from faulttree.render.report_facts import accepted
from faulttree.render.suspects_here import cleared, pairs, two_at_once

HEAD = "## What the readings say"
NONE_IS_LARGE = 0.1
"""From here on “none of these” is said in a sentence of its own. Common practice, no source."""
_MOST_PARTS, _MOST_READINGS = 5, 3


def section(state: WalkState, suspected: Suspected) -> Iterator[str]:
    """The section, ready for Markdown; nothing before the first reading.

    Args:
        state: the walk.
        suspected: what is suspect after its readings.
    """
    count = len(suspected.suspicion.reads)
    if not count:
        return
    readings = "the one reading" if count == 1 else f"{count} readings"
    source = suspected.source
    worked = f"Worked out from the {source} after {readings}. {say.odds_of(source)}"
    yield from (HEAD, "", worked, "")
    for text in _odds(suspected):
        yield f"- {text}"
    yield ""
    yield from _of_the_finding(state, suspected)


def section_without(why_not: str) -> Iterator[str]:
    """The section where nothing can be worked out, with the reason."""
    yield from (HEAD, "", words(why_not), "")


def verdict_of(state: WalkState, suspected: Suspected) -> frozenset[str]:
    """Ids of the suspects that the accepted conclusion is right for; none where it names none."""
    at = position(state)
    if accepted(state, at) is None:
        return frozenset()
    return suspected.verdicts.get(at.step_id, frozenset())


def _odds(suspected: Suspected) -> Iterator[str]:
    suspicion = suspected.suspicion
    for part in suspected.parts[:_MOST_PARTS]:
        if part.share.now >= say.LEAST:
            faults = say.faults(_worth_telling(part))
            yield f"{say.percent_in_words(part.share.now)}: {words(part.name)} ({words(faults)})"
    for two in pairs(suspicion):
        yield f"{say.percent_in_words(two.share)}: {words(two_at_once(two))}"
    yield f"{say.percent_in_words(suspicion.none)}: {say.NONE}"
    yield cleared(suspicion).capitalize()


def _worth_telling(part: Part) -> list[Ranked]:
    """The faults with odds worth telling; the likeliest where they only add up to that."""
    told = [fault for fault in part.faults if fault.share >= say.LEAST]
    return told or [max(part.faults, key=lambda fault: fault.share)]


def _of_the_finding(state: WalkState, suspected: Suspected) -> Iterator[str]:
    """Whether the readings bear the finding out, and which of them."""
    suspicion, ids = suspected.suspicion, verdict_of(state, suspected)
    named = [each for each in suspicion.ranked if each.suspect.id in ids]
    if named:
        yield " ".join(_how_it_fares(state, suspected, ids))
        yield ""
        yield from _speaking(state, suspected, named[0])
    if suspicion.none >= NONE_IS_LARGE:
        none = say.percent_in_words(suspicion.none)
        yield (
            f"**No fault that the {suspected.source} knows explains these readings well:** "
            f"{none} is left for none of these."
        )
        yield ""


def _how_it_fares(state: WalkState, suspected: Suspected, ids: frozenset[str]) -> Iterator[str]:
    """Whether the finding is the likeliest, in one or two sentences."""
    mine = share_of(suspected.suspicion, ids).now
    others = (each for each in suspected.suspicion.ranked if each.suspect.id not in ids)
    other = next(others, None)
    share = say.percent_in_words(mine)
    if other is None or other.share <= mine:
        yield f"The finding is the likeliest: {share}."
        return
    yield (
        f"**By the readings the finding is not the likeliest:** it has {share}, "
        f"{words(other.suspect.words)} has {say.percent_in_words(other.share)}."
    )
    proof = state.proofs.get(position(state).step_id)
    if proof is not None and proof.result == "held":
        yield "Its proof held, which these odds leave out."
    else:
        yield "Its proof was not done."


def _speaking(state: WalkState, suspected: Suspected, fault: Ranked) -> Iterator[str]:
    name = words(fault.suspect.words)
    speaks_for = [each for each in fault.speaks if each.times > 1.0]
    against = [each for each in fault.speaks if each.times < 1.0]
    for side, found in (("for", speaks_for), ("against", against)):
        if found:
            yield f"What spoke {side} “{name}”:"
            yield ""
            for each in found[:_MOST_READINGS]:
                yield f"- {words(_said(state, suspected, each))}"
            yield ""


def _said(state: WalkState, suspected: Suspected, speaks: Speaks) -> str:
    read = suspected.suspicion.reads[speaks.reading]
    return f"{say.reading(state, read)}: {say.times(speaks.times)}"
