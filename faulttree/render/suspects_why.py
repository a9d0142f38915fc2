"""Why a part is suspect or cleared: its faults, and the readings that speak for and against."""

from collections.abc import Iterator

from faulttree.core.suspects.by_part import Part
from faulttree.core.suspects.explain import Speaks
from faulttree.core.suspects.hypotheses import Sighting
from faulttree.core.suspects.ranking import Ranked, Suspicion
from faulttree.core.suspects.shares import Share, Standing
from faulttree.core.suspects.suspected import Suspected
from faulttree.core.walk.state import WalkState
from faulttree.render import answers
from faulttree.render import suspects_words as say
from faulttree.render.line import Line

_MOST_READINGS = 5
"""Readings told for a fault, and against it."""
_MOST_FAULTS = 4
"""Faults of a part whose readings are told."""


def why_lines(state: WalkState, suspected: Suspected, part: Part) -> Iterator[Line]:
    """All there is to say of a part."""
    suspicion = suspected.suspicion
    yield Line("", _odds(part.share))
    told = _worth_telling(part)
    for fault in told:
        yield Line("", "")
        yield Line(say.fault(fault), _of_fault(fault))
        yield from _speaking(state, suspicion, fault)
    rest = [fault for fault in part.faults if fault not in told]
    if rest:
        yield Line("", "")
        yield Line("Cleared, or below 1 %", say.faults(rest))
    yield from _taken_while_away(state, suspicion, part)


def _odds(share: Share) -> str:
    standing = " It is cleared: less than a tenth of that is left." if _is_cleared(share) else ""
    return (
        f"{say.percent(share.now)} now, {say.percent(share.before)} before the last reading, "
        f"{say.percent(share.prior)} before any.{standing}"
    )


def _is_cleared(share: Share) -> bool:
    return share.standing is Standing.CLEARED


def _worth_telling(part: Part) -> list[Ranked]:
    """The faults that are not negligible; the likeliest one of a part that is cleared."""
    likely = [fault for fault in part.faults if fault.share >= say.LEAST]
    return (likely or list(part.faults))[: _MOST_FAULTS if likely else 1]


def _of_fault(fault: Ranked) -> str:
    share = Share(fault.share, fault.before, fault.prior)
    comes = ", comes and goes" if fault.suspect.comes else ""
    return f"{say.percent(share.now)} ({say.change(share)}){comes}"


def _speaking(state: WalkState, suspicion: Suspicion, fault: Ranked) -> Iterator[Line]:
    """The readings that move its odds, the strongest first."""
    speaks_for = [each for each in fault.speaks if each.times > 1.0]
    against = [each for each in fault.speaks if each.times < 1.0]
    for label, found in (("  Speaks for it", speaks_for), ("  Speaks against it", against)):
        for each in found[:_MOST_READINGS]:
            yield Line(label, _said(state, suspicion, each))
    for each in fault.sightings:
        label = "  Speaks for it" if each.times > 1.0 else "  Speaks against it"
        yield Line(label, _seen(state, suspicion, each))
    if not fault.speaks and not fault.sightings:
        yield Line("", "  No reading by itself speaks clearly for it or against it.")


def _said(state: WalkState, suspicion: Suspicion, speaks: Speaks) -> str:
    read = suspicion.reads[speaks.reading]
    return f"{say.reading(state, read)}: {say.times(speaks.times)}"


def _seen(state: WalkState, suspicion: Suspicion, speaks: Speaks) -> str:
    """That the complaint showed or stayed away, as told by the first reading of a stretch."""
    read = suspicion.reads[speaks.reading]
    how = "showed itself" if read.sighting is Sighting.PRESENT else "stayed away"
    first = answers.title(state, read.step_id)
    return f"the complaint {how}, from “{first}” on: {say.times(speaks.times)}"


def _taken_while_away(state: WalkState, suspicion: Suspicion, part: Part) -> Iterator[Line]:
    """What clears nothing that comes and goes."""
    if not any(fault.suspect.comes for fault in part.faults):
        return
    away = [read for read in suspicion.reads if read.sighting is Sighting.ABSENT]
    unknown = [read for read in suspicion.reads if read.sighting is Sighting.UNKNOWN]
    for reads, how in ((away, "was away"), (unknown, "was not known to show itself")):
        if reads:
            listed = "; ".join(say.reading(state, read) for read in reads)
            yield Line("", "")
            told = f"{listed} (the complaint {how})"
            yield Line("Clears nothing that comes and goes", told)
