"""Marks as they are written: `12.5s=wiggle`, or a file with a time and a word on each line."""

from collections.abc import Sequence
from dataclasses import dataclass

from faulttree.core.reading import ReadingRefused, parse_reading
from faulttree.core.trace.header import Columns
from faulttree.core.trace.lines import TraceRefused, is_passed_over
from faulttree.core.trace.marks import Mark
from faulttree.core.trace.moments import DAY_S, TimeKind, kind_of, moment_in
from faulttree.core.units import Quantity

UNNAMED = "mark"
"""What a mark is called that has no word."""
_PARTING = ";,= \t"


@dataclass(frozen=True, slots=True)
class MarkClock:
    """What turns the times of marks into seconds of the trace.

    Attributes:
        columns: how the trace tells the time. Marks on a trace with times of day tell those, or
            seconds since its beginning; other marks tell the time as the trace does, in seconds.
        began_s: the time of its first row, as it tells it [s].
    """

    columns: Columns
    began_s: float

    def at_s(self, text: str) -> float | None:
        """Seconds from the first row of the trace; None for a text that is no such time."""
        kind, of_trace = kind_of(text), self.columns.time_kind
        if kind is None:
            return self._number(text)
        told = moment_in(text, kind, self.columns.origin)
        if told is None or of_trace is TimeKind.NUMBER:
            return None
        if kind is of_trace is TimeKind.STAMP:
            return told - self.began_s
        return (told - self.began_s) % DAY_S if kind is TimeKind.CLOCK else None

    @property
    def example(self) -> str:
        """A time as a mark may tell it."""
        return "12.5 s" if self.columns.time_kind is TimeKind.NUMBER else "09:30:15"

    def _number(self, text: str) -> float | None:
        try:
            told = parse_reading(text, Quantity.TIME).value
        except ReadingRefused:
            return None
        return told - self.began_s if self.columns.time_kind is TimeKind.NUMBER else told


def mark_in(text: str, clock: MarkClock) -> Mark:
    """A mark of the command line: a time, and after a sign of equality what was done.

    Raises:
        TraceRefused: the time is none.
    """
    told, _, label = text.partition("=")
    at_s = clock.at_s(told.strip())
    if at_s is None:
        raise TraceRefused(
            f"--mark {text} tells no time of this trace; write it as {clock.example}=wiggle."
        )
    return Mark(at_s, " ".join(label.split()) or UNNAMED)


def marks_in(text: str, source: str, clock: MarkClock) -> Sequence[Mark]:
    """The marks of a file: a time on each line, then what was done; a header may stand above.

    Args:
        text: what stands in the file.
        source: its name.
        clock: what tells its times.

    Raises:
        TraceRefused: a line has no time of this trace.
    """
    lines = [(n, line) for n, line in enumerate(text.splitlines(), 1) if not is_passed_over(line)]
    marks: list[Mark] = []
    for index, (number, line) in enumerate(lines):
        mark = _in_line(line, clock)
        if mark is not None:
            marks.append(mark)
        elif index or any(letter.isdigit() for letter in line):
            raise TraceRefused(
                f"No time of this trace; expected a line such as “{clock.example}, wiggle”.",
                number,
                1,
                source,
            )
    return marks


def _in_line(line: str, clock: MarkClock) -> Mark | None:
    """The longest beginning of a line that is a time, and the word behind it."""
    plain = line.replace('"', " ").strip()
    ends = [i for i, letter in enumerate(plain) if letter in _PARTING]
    for end in [len(plain), *reversed(ends)]:
        at_s = clock.at_s(plain[:end].strip())
        label = " ".join(plain[end:].strip(_PARTING).split())
        if at_s is not None and (not label or any(letter.isalpha() for letter in label)):
            return Mark(at_s, label or UNNAMED)
    return None
