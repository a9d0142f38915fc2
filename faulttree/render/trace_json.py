"""What was found in a trace, as data for scripts."""

from typing import Any

from faulttree.core.trace.findings import Findings, Rate
from faulttree.core.trace.runs import BEGIN_UNSEEN, END_UNSEEN
from faulttree.render.trace_marks import follows_more_than_chance
from faulttree.render.trace_words import TraceWords


def trace_json(words: TraceWords) -> dict[str, Any]:
    """The findings as plain data: times in seconds from the first row, readings in `unit`."""
    findings = words.findings
    return {
        "file": words.file,
        "column": findings.columns.name,
        "time-column": findings.columns.time_name or None,
        "unit": findings.columns.unit.symbol,
        "quantity": findings.columns.unit.quantity.value,
        "began": words.time(0),
        "date": words.date(0) or None,
        **_recording(findings),
        **_limits(findings),
        "dropouts": _dropouts(words),
        "count": len(findings.dropouts),
        "left-out-as-too-short": findings.scanned.short,
        "total-s": findings.total_s,
        "share": findings.share,
        "rate": _rate(findings.rate),
        "episodes": _rate(findings.episode_rate),
        "apart-s": findings.request.apart_s,
        "window-s": findings.request.window_s,
        "marks": _marks(findings),
    }


def _recording(findings: Findings) -> dict[str, Any]:
    surveyed = findings.surveyed
    gaps = zip(*findings.scanned.stretches.gaps, strict=True)
    return {
        "samples": surveyed.samples,
        "missing": surveyed.missing,
        "recorded-s": findings.recorded_s,
        "step-s": surveyed.sampling.step_s,
        "gap-s": surveyed.sampling.gap_s,
        "gaps": [{"begins-s": float(b), "ends-s": float(e)} for b, e in gaps],
        "setbacks": surveyed.setbacks,
        "lowest": surveyed.lowest,
        "highest": surveyed.highest,
    }


def _limits(findings: Findings) -> dict[str, Any]:
    suggestion, counting = findings.suggestion, findings.request.counting
    return {
        "side": findings.limits.side.value,
        "low": findings.limits.low,
        "high": findings.limits.high,
        "suggested-from": suggestion.way.value if suggestion else None,
        "usual-level": suggestion.level if suggestion else None,
        "merge-s": counting.merge_s,
        "shortest-s": counting.shortest_s,
    }


def _dropouts(words: TraceWords) -> list[dict[str, Any]]:
    found = words.findings.dropouts
    return [
        {
            "at": words.time(float(begin)),
            "begins-s": float(begin),
            "lasts-s": float(end - begin),
            "furthest": float(extreme),
            "begin-seen": not unseen & BEGIN_UNSEEN,
            "end-seen": not unseen & END_UNSEEN,
        }
        for begin, end, extreme, unseen in zip(
            found.begins, found.ends, found.extremes, found.unseen.tolist(), strict=True
        )
    ]


def _rate(rate: Rate) -> dict[str, Any]:
    return {"count": rate.count, "per-hour": rate.per_hour, "low": rate.low, "high": rate.high}


def _marks(findings: Findings) -> list[dict[str, Any]]:
    return [
        {
            "label": each.label,
            "at-s": [mark.at_s for mark in findings.marks if mark.label == each.label],
            "outside": each.outside,
            "share": each.share,
            "episodes": each.episodes,
            "hits": each.hits,
            "p": each.chance,
            "p-corrected": each.corrected,
            "more-than-chance": follows_more_than_chance(each),
        }
        for each in findings.follows
    ]
