"""What is suspect as plain data, for the JSON report of a case."""

from typing import Any

from faulttree.core.suspects.by_part import Part, cleared_faults
from faulttree.core.suspects.ranking import Ranked
from faulttree.core.suspects.shares import share_of
from faulttree.core.suspects.suspected import Suspected
from faulttree.core.walk.state import WalkState
from faulttree.render.report_suspects import verdict_of
from faulttree.render.suspects_here import pairs

_DIGITS = 4
"""Decimals of a probability: more would not come out the same on every machine."""


def suspects_json(state: WalkState, suspected: Suspected) -> dict[str, Any]:
    """Probabilities by part and fault; `speaks` are factors on the odds, by event."""
    suspicion = suspected.suspicion
    ids = verdict_of(state, suspected)
    return {
        "readings": [read.seq for read in suspicion.reads],
        "parts": [_part(suspected, part) for part in suspected.parts if not part.is_cleared],
        "pairs": [
            {"faults": [two.one.id, two.other.id], "probability": round(two.share, _DIGITS)}
            for two in pairs(suspicion)
        ],
        "none-of-these": round(suspicion.none, _DIGITS),
        "cleared": [each.suspect.id for each in cleared_faults(suspicion)],
        "finding": round(share_of(suspicion, ids).now, _DIGITS) if ids else None,
    }


def _part(suspected: Suspected, part: Part) -> dict[str, Any]:
    return {
        "part": part.name,
        "probability": round(part.share.now, _DIGITS),
        "before-the-last-reading": round(part.share.before, _DIGITS),
        "before-any-reading": round(part.share.prior, _DIGITS),
        "faults": [_fault(suspected, fault) for fault in part.faults],
    }


def _fault(suspected: Suspected, fault: Ranked) -> dict[str, Any]:
    reads = suspected.suspicion.reads
    return {
        "fault": fault.suspect.id,
        "words": fault.suspect.words,
        "probability": round(fault.share, _DIGITS),
        "speaks": {
            str(reads[each.reading].seq): float(f"{each.times:.3g}") for each in fault.speaks
        },
    }
