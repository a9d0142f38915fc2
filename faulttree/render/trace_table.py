"""The dropouts of a trace as a table."""

from collections.abc import Iterator

from faulttree.core.trace.runs import BEGIN_UNSEEN, END_UNSEEN
from faulttree.render.trace_words import TraceWords

MOST_ROWS = 20
"""Dropouts that are listed; of more the first so many, and the longest by a line of its own."""


def table_lines(words: TraceWords, everything: bool) -> Iterator[str]:
    """A line for each dropout: when it begins, how long it lasts, its furthest reading.

    Args:
        words: the trace.
        everything: no list is too long.
    """
    found = words.findings.dropouts
    chosen = range(len(found)) if everything else range(min(MOST_ROWS, len(found)))
    cells = [("", "begins at", "lasts", words.furthest)]
    cells += [
        (
            str(index + 1),
            words.time(float(found.begins[index])),
            _mark(int(found.unseen[index])) + words.duration(float(found.durations[index])),
            words.reading(float(found.extremes[index])),
        )
        for index in chosen
    ]
    widths = [max(len(row[column]) for row in cells) for column in range(4)]
    for row in cells:
        yield "  " + "  ".join(f"{text:>{w}}" for text, w in zip(row, widths, strict=True))
    left = len(found) - len(chosen)
    if left:
        yield f"  and {left:,} more, which --all lists; {_longest(words)}"
    if any(found.unseen[index] for index in chosen):
        yield "  > it goes on beyond what was recorded: it lasts at least so long"


def rows_told(words: TraceWords) -> Iterator[str]:
    """The first dropouts, each in a few words, for a written record."""
    found = words.findings.dropouts
    for index in range(min(MOST_ROWS, len(found))):
        at = words.time(float(found.begins[index]))
        lasts = words.duration(float(found.durations[index]))
        least = "at least " if found.unseen[index] else ""
        furthest = words.reading(float(found.extremes[index]))
        yield f"At {at} for {least}{lasts}, {words.furthest} {furthest}"
    if len(found) > MOST_ROWS:
        yield f"And {len(found) - MOST_ROWS:,} more; {_longest(words)}"


def _longest(words: TraceWords) -> str:
    found = words.findings.dropouts
    index = int(found.durations.argmax())
    lasts = words.duration(float(found.durations[index]))
    return f"the longest lasts {lasts}, at {words.time(float(found.begins[index]))}"


def _mark(unseen: int) -> str:
    return "> " if unseen & (BEGIN_UNSEEN | END_UNSEEN) else ""
