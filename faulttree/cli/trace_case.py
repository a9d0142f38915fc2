"""What was found in a trace, recorded in a case."""

from faulttree.core.trace.lines import TraceRefused
from faulttree.core.walk.respond import Recorded
from faulttree.core.walk.trace_summary import TraceSummary
from faulttree.files import cases, places
from faulttree.render.trace_table import rows_told
from faulttree.render.trace_text import sentences
from faulttree.render.trace_words import TraceWords
from faulttree.session import Session


def attach(words: TraceWords, digest: str, size: int, case: str, step: str | None) -> str:
    """Record the findings of a trace in a case; its id.

    Args:
        words: the trace, in all letters.
        digest, size: SHA-256 and length of the file.
        case: id of the case, or its beginning or end.
        step: the step of the tree that it belongs to; the one asked for where it is None.

    Raises:
        CaseError, DocumentError: the case cannot be opened.
        TraceRefused: it takes no trace, or has no such step.
    """
    session = Session.resume(cases.find(places.cases_folder(), case))
    outcome = session.attach_trace(summary_of(words, digest, size), step)
    if not isinstance(outcome, Recorded):
        raise TraceRefused(str(getattr(outcome, "message", outcome)))
    return session.id


def summary_of(words: TraceWords, digest: str, size: int) -> TraceSummary:
    """What a case keeps of a trace; arguments as in `attach`."""
    findings = words.findings
    columns, limits, rate = findings.columns, findings.limits, findings.rate
    return TraceSummary(
        file=words.text(words.file),
        sha256=digest,
        size=size,
        column=words.name,
        unit=columns.unit.symbol,
        quantity=columns.unit.quantity,
        samples=findings.surveyed.samples,
        recorded_s=findings.recorded_s,
        step_s=findings.surveyed.sampling.step_s,
        side=limits.side.value,
        low=limits.low,
        high=limits.high,
        count=rate.count,
        total_s=findings.total_s,
        per_hour=rate.per_hour,
        per_hour_low=rate.low,
        per_hour_high=rate.high,
        told=tuple(sentences(words)),
        listed=tuple(rows_told(words)),
    )
