"""What was found in a trace, as text in 80 columns."""

from collections.abc import Iterable, Iterator

from faulttree.core.trace.findings import Rate
from faulttree.core.trace.limits import Side
from faulttree.core.trace.suggest import HALF, NOISE, SHARE, Way
from faulttree.render.page import wrapped
from faulttree.render.trace_marks import marks_lines
from faulttree.render.trace_picture import picture_lines
from faulttree.render.trace_table import table_lines
from faulttree.render.trace_words import TraceWords, per_hour, percent, span


def trace_text(words: TraceWords, everything: bool = False) -> str:
    """All that was found, one line feed at the end.

    Args:
        words: the trace.
        everything: all dropouts are listed, however many.
    """
    sections: tuple[Iterable[str], ...] = (
        _head(words),
        picture_lines(words),
        _result(words, everything),
        _paragraphs(_rates(words)),
        _paragraphs(words.text(line) for line in marks_lines(words)),
        _paragraphs([words.text(unseen(words))]),
    )
    texts = ["\n".join(lines) for section in sections if (lines := list(section))]
    return "\n\n".join(texts) + "\n"


def sentences(words: TraceWords) -> Iterator[str]:
    """What was found, without picture and table, for a written record."""
    yield f"{summary(words).rstrip('.')}."
    yield " ".join(recording(words))
    yield " ".join([limits_told(words), *_counting(words)])
    yield from _rates(words)
    yield from marks_lines(words)
    yield unseen(words)


def _paragraphs(texts: Iterable[str]) -> Iterator[str]:
    for text in texts:
        yield from wrapped(text, "", "  ")


def _head(words: TraceWords) -> Iterator[str]:
    date = words.date(0)
    timed = words.findings.columns.time_name
    head = f"{words.file}: {words.name}" + (f", times from {timed}" if timed else "")
    yield from wrapped(words.text(head + (f", {date}" if date else "")), "", "  ")
    yield from _paragraphs(words.text(line) for line in recording(words))
    yield from _paragraphs(words.text(line) for line in (limits_told(words), *_counting(words)))


def recording(words: TraceWords) -> Iterator[str]:
    """How long was recorded, how finely, and what is missing."""
    surveyed, sampling = words.findings.surveyed, words.findings.surveyed.sampling
    recorded = words.duration(words.findings.recorded_s)
    samples = words.counted(surveyed.samples, "sample")
    yield f"{samples} in {recorded}, one every {span(sampling.step_s)}."
    if sampling.resolution_s > sampling.step_s:
        yield (
            f"Several share one time, told to {span(sampling.resolution_s)}: times and lengths are "
            "known no better. Where they are evenly spaced, "
            f"--rate {1 / sampling.step_s:.4g} tells more."
        )
    yield from _gaps(words)
    if surveyed.missing:
        verb = "is" if surveyed.missing == 1 else "are"
        yield f"{words.counted(surveyed.missing, 'reading')} {verb} missing; each is a gap."
    if surveyed.is_sparse:
        yield "Most rows have nothing in this column; they are passed over."
    if surveyed.first_setback is not None:
        line, back = surveyed.first_setback
        often = "once" if surveyed.setbacks == 1 else f"{surveyed.setbacks:,} times"
        yield (
            f"The time goes back {often}, first by {back:.6g} s at line {line:,}; from there on it "
            "is counted on from the sample before."
        )
    if words.findings.layout.above:
        above = words.counted(words.findings.layout.above, "line")
        yield f"{above} above the header {'is' if above.startswith('1 ') else 'are'} passed over."
    if words.findings.cut_line:
        yield f"Line {words.findings.cut_line:,}, the last one, is cut off and was left out."


def _gaps(words: TraceWords) -> Iterator[str]:
    begins, ends = words.findings.scanned.stretches.gaps
    if not len(begins):
        return
    lengths = ends - begins
    longest = int(lengths.argmax())
    yield (
        f"{words.counted(len(begins), 'gap')}, {words.duration(float(lengths.sum()))} in all, "
        f"the longest {words.duration(float(lengths[longest]))} at "
        f"{words.time(float(begins[longest]))}; nothing is known of them."
    )


def limits_told(words: TraceWords) -> str:
    """What the dropouts were found with, and where that comes from."""
    limits, suggestion = words.findings.limits, words.findings.suggestion
    begin, end = words.level(limits.begin), words.level(limits.end)
    sides = ("below", "above") if limits.side is Side.BELOW else ("above", "below")
    told = f"{words.noun.capitalize()}s begin {sides[0]} {begin} and end {sides[1]} {end}"
    if suggestion is None:
        return f"{told}, as given."
    level = words.level(float(f"{suggestion.level:.4g}"))
    return f"{told}: suggested, {_way(words, suggestion.way, level)}. --low and --high set them."


def _way(words: TraceWords, way: Way, level: str) -> str:
    sign = -1 if words.findings.limits.side is Side.BELOW else 1
    if way is Way.SHARE_OF_LEVEL:
        shares = " and ".join(f"{100 * (1 + sign * s):.0f} %" for s in (SHARE, SHARE / 2))
        return f"{shares} of the usual level, {level}"
    if way is Way.NOISE:
        return f"{NOISE:g} and {NOISE / 2:g} times the noise away from the usual level, {level}"
    return (
        f"{HALF:g} and {HALF / 2:g} of the way from the usual level, {level}, to the "
        f"{words.furthest} reading"
    )


def _counting(words: TraceWords) -> Iterator[str]:
    findings, counting = words.findings, words.findings.request.counting
    if counting.merge_s:
        yield f"With a pause of less than {span(counting.merge_s)} they are one."
    if counting.shortest_s:
        yield (
            f"Shorter than {span(counting.shortest_s)} they are left out: "
            f"{findings.scanned.short:,} {'was' if findings.scanned.short == 1 else 'were'}."
        )


def _result(words: TraceWords, everything: bool) -> Iterator[str]:
    yield from wrapped(summary(words))
    if len(words.findings.dropouts):
        yield from table_lines(words, everything)


def summary(words: TraceWords) -> str:
    """How many there are, how long they last together, and their share of the time."""
    findings = words.findings
    if not len(findings.dropouts):
        return f"No {words.noun}."
    return (
        f"{words.counted(len(findings.dropouts))}, {words.duration(findings.total_s)} in all, "
        f"{percent(findings.share)} of the time"
    )


def _rates(words: TraceWords) -> Iterator[str]:
    findings = words.findings
    yield f"Rate: {rate_told(findings.rate)}"
    if len(findings.episodes) != len(findings.dropouts):
        yield (
            f"Some are less than {span(findings.request.apart_s)} apart and hardly independent. "
            f"Those taken together, they are {words.counted(len(findings.episodes), 'episode')}: "
            f"{rate_told(findings.episode_rate)}"
        )


def rate_told(rate: Rate) -> str:
    """A rate with its interval."""
    return (
        f"{per_hour(rate.per_hour)} per hour, with 95 % confidence {per_hour(rate.low)} to "
        f"{per_hour(rate.high)} (exact, Poisson)."
    )


def unseen(words: TraceWords) -> str:
    """What the trace cannot show."""
    sampling = words.findings.surveyed.sampling
    step = sampling.step_s
    return (
        f"Unseen: {words.one} shorter than the {span(step)} between two samples is caught with the "
        f"chance of its length over them: one of {span(step / 10)} one time in ten. Whether there "
        "are such, the trace does not tell. Every length is known to "
        f"{span(sampling.resolution_s)}."
    )
