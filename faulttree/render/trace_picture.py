"""A trace drawn in signs: the lowest and highest reading of each column, and what lies below it.

Dropouts, gaps and marks stand in rows of their own with a word before each, so that neither colour
nor shape has to tell them.
"""

import math
from collections.abc import Iterable, Iterator

from faulttree.core.trace.findings import Findings
from faulttree.render.trace_words import TraceWords

HEIGHT = 9
"""Rows of the picture."""
_LETTERS = "abcdefghijklmnopqrstuvwxyz"
_SEVERAL = "*"
_DROPOUT, _GAP, _LIMIT = "!", "~", "."
_BAR = ("│", "─")
_BAR_IN_ASCII = ("|", "-")


def picture_lines(words: TraceWords) -> Iterator[str]:
    """The picture of a trace."""
    findings = words.findings
    scale = _Scale(findings)
    labels = scale.labels(words)
    margin = max(map(len, [*labels.values(), words.noun + "s"]))
    for row, drawn in enumerate(_drawn(findings, scale, words.only_ascii)):
        yield f"{labels.get(row, ''):>{margin}} {drawn}".rstrip()
    for label, signs in _rows_below(words):
        if signs.strip():
            yield f"{label:>{margin}} {signs}".rstrip()
    yield f"{'':>{margin}} {_time_axis(words, len(findings.scanned.lows))}".rstrip()
    legend = ", ".join(f"{sign} {label}" for label, sign in letters_of(findings).items())
    if legend:
        yield f"{'':>{margin}} {words.text(legend)}"


def letters_of(findings: Findings) -> dict[str, str]:
    """The letter of each kind of mark."""
    kinds = [each.label for each in findings.follows]
    return {kind: _LETTERS[min(i, len(_LETTERS) - 1)] for i, kind in enumerate(kinds)}


class _Scale:
    """Rows of the picture by reading: row 0 is the highest reading."""

    def __init__(self, findings: Findings) -> None:
        surveyed, limits = findings.surveyed, findings.limits
        self.top = max(surveyed.highest, limits.high)
        self.bottom = min(surveyed.lowest, limits.low)
        if self.top == self.bottom:
            self.top, self.bottom = self.top + 1, self.bottom - 1
        self.limits = dict.fromkeys((limits.high, limits.low))

    def row(self, reading: float) -> int:
        share = (self.top - reading) / (self.top - self.bottom)
        return min(HEIGHT - 1, max(0, round(share * (HEIGHT - 1))))

    def labels(self, words: TraceWords) -> dict[int, str]:
        """What stands before some rows: the limits, and the ends of the scale where they fit."""
        ends = {0: words.reading(self.top), HEIGHT - 1: words.reading(self.bottom)}
        return ends | {self.row(limit): words.level(limit) for limit in self.limits}


def _drawn(findings: Findings, scale: _Scale, only_ascii: bool) -> Iterator[str]:
    upright, level = _BAR_IN_ASCII if only_ascii else _BAR
    limits = {scale.row(limit) for limit in scale.limits}
    spans = [
        None if math.isnan(low) else (scale.row(high), scale.row(low))
        for low, high in zip(findings.scanned.lows, findings.scanned.highs, strict=True)
    ]
    for row in range(HEIGHT):
        blank = _LIMIT if row in limits else " "
        signs = []
        for span in spans:
            if span is None or not span[0] <= row <= span[1]:
                signs.append(blank)
            else:
                signs.append(level if span[0] == span[1] else upright)
        yield "".join(signs)


def _rows_below(words: TraceWords) -> Iterator[tuple[str, str]]:
    findings = words.findings
    columns, end = len(findings.scanned.lows), findings.surveyed.duration_s
    dropouts = zip(findings.dropouts.begins, findings.dropouts.ends, strict=True)
    yield f"{words.noun}s", _signs(((b, e, _DROPOUT) for b, e in dropouts), columns, end)
    gaps = zip(*findings.scanned.stretches.gaps, strict=True)
    yield "gaps", _signs(((b, e, _GAP) for b, e in gaps), columns, end)
    letters = letters_of(findings)
    marks = ((m.at_s, m.at_s, letters[m.label]) for m in findings.marks if 0 <= m.at_s <= end)
    yield "marks", _signs(marks, columns, end)


def _signs(spans: Iterable[tuple[float, float, str]], columns: int, end_s: float) -> str:
    """A sign in every column that a span of time reaches into; a star where two differ."""
    row = [" "] * columns
    for begin, end, sign in spans:
        first, last = (min(columns - 1, int(t / end_s * columns)) for t in (begin, end))
        for column in range(first, max(first, last) + 1):
            row[column] = sign if row[column] in (" ", sign) else _SEVERAL
    return "".join(row)


def _time_axis(words: TraceWords, columns: int) -> str:
    """The time at the left edge, in the middle and at the right edge, as far as they fit."""
    end_s = words.findings.surveyed.duration_s
    first, middle, last = (words.time(share * end_s) for share in (0, 0.5, 1))
    line = first.ljust(columns - len(last)) + last
    at = columns // 2 - len(middle) // 2
    if len(first) < at and at + len(middle) < columns - len(last):
        line = line[:at] + middle + line[at + len(middle) :]
    return line
