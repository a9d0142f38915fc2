"""The bands of a step drawn as a scale, with the reading's place on it.

Rows of text segments: a screen may colour them, but every band carries its sign as well:
+ good, ? unclear, ! fault.
"""

from collections.abc import Sequence
from dataclasses import dataclass

SIGNS = {"good": "+", "unclear": "?", "fault": "!"}
"""The sign of what a band speaks for."""
_NARROWEST = 11


@dataclass(frozen=True, slots=True)
class Segment:
    """A piece of a row and its tone: good, unclear, fault, mark or plain."""

    text: str
    tone: str = "plain"


Row = tuple[Segment, ...]


@dataclass(frozen=True, slots=True)
class DrawnBand:
    """A band as drawn: its name, what it speaks for, and the label of its lower edge."""

    name: str
    speaks: str
    from_label: str = ""


@dataclass(frozen=True, slots=True)
class Mark:
    """A reading on the scale.

    Attributes:
        band: index of the band that owns it.
        share: how far along that band, 0 to 1.
        low, high: the same for both ends of its error, as (band, share).
        label: the reading in words.
    """

    band: int
    share: float
    low: tuple[int, float]
    high: tuple[int, float]
    label: str


def draw(bands: Sequence[DrawnBand], width: int, mark: Mark | None = None) -> tuple[Row, ...]:
    """The scale in `width` columns; a list of bands where the columns do not suffice."""
    widths = _widths(len(bands), width)
    starts = _label_starts(bands, widths, width)
    if min(widths) < _NARROWEST or starts is None:
        return _as_list(bands, width, mark)
    rows = [_names(bands, widths), _bar(bands, widths), _edges(bands, starts, width)]
    if mark is not None:
        rows.extend(_mark_rows(mark, widths, width))
    return tuple(rows)


def as_text(rows: Sequence[Row]) -> list[str]:
    """The rows as plain lines."""
    return ["".join(segment.text for segment in row).rstrip() for row in rows]


def _widths(count: int, width: int) -> list[int]:
    free = width - (count - 1)
    base, extra = divmod(max(free, 0), count)
    return [base + (1 if i < extra else 0) for i in range(count)]


def _names(bands: Sequence[DrawnBand], widths: list[int]) -> Row:
    cells: list[Segment] = []
    for index, (band, width) in enumerate(zip(bands, widths, strict=True)):
        if index:
            cells.append(Segment("│"))
        text = _cut(f"{SIGNS[band.speaks]} {band.name}", width)
        cells.append(Segment(text.center(width), band.speaks))
    return tuple(cells)


def _bar(bands: Sequence[DrawnBand], widths: list[int]) -> Row:
    line = {"good": "═", "unclear": "─", "fault": "─"}
    cells: list[Segment] = []
    for index, (band, width) in enumerate(zip(bands, widths, strict=True)):
        if index:
            cells.append(Segment("┴"))
        cells.append(Segment(line[band.speaks] * width, band.speaks))
    return tuple(cells)


def _label_starts(bands: Sequence[DrawnBand], widths: list[int], width: int) -> list[int] | None:
    """The column of each edge's label, as near below its edge as the others let it be.

    None where the labels do not fit beside each other.
    """
    lengths = [len(band.from_label) for band in bands[1:]]
    starts: list[int] = []
    free = 0
    for index, length in enumerate(lengths, 1):
        edge = sum(widths[:index]) + index - 1
        starts.append(max(free, edge - length // 2))
        free = starts[-1] + length + 1
    limit = width
    for index in reversed(range(len(starts))):
        starts[index] = min(starts[index], limit - lengths[index])
        limit = starts[index] - 1
    return starts if all(start >= 0 for start in starts) else None


def _edges(bands: Sequence[DrawnBand], starts: list[int], width: int) -> Row:
    line = " " * width
    for band, start in zip(bands[1:], starts, strict=True):
        line = line[:start] + band.from_label + line[start + len(band.from_label) :]
    return (Segment(line),)


def _mark_rows(mark: Mark, widths: list[int], width: int) -> tuple[Row, ...]:
    at = _column(mark.band, mark.share, widths)
    low, high = _column(*mark.low, widths), _column(*mark.high, widths)
    line = [" "] * width
    for column in range(low, high + 1):
        line[column] = "-"
    line[at] = "^"
    label = _cut(mark.label, width)
    start = min(max(0, at - len(label) // 2), width - len(label))
    return (
        (Segment("".join(line), "mark"),),
        (Segment(" " * start + label, "mark"),),
    )


def _column(band: int, share: float, widths: list[int]) -> int:
    start = sum(widths[:band]) + band
    return start + min(widths[band] - 1, max(0, int(share * widths[band])))


def _as_list(bands: Sequence[DrawnBand], width: int, mark: Mark | None) -> tuple[Row, ...]:
    rows: list[Row] = []
    for index, band in enumerate(bands):
        sign = _list_mark(index, mark)
        lower = f"from {band.from_label}" if band.from_label else ""
        upper = f"below {bands[index + 1].from_label}" if index + 1 < len(bands) else ""
        limits = " ".join(part for part in (lower, upper) if part)
        text = f"{sign}{SIGNS[band.speaks]} {band.name}: {limits}"
        rows.append((Segment(_cut(text, width), band.speaks),))
    if mark is not None:
        rows.append((Segment(_cut(f"> {mark.label}", width), "mark"),))
    return tuple(rows)


def _list_mark(index: int, mark: Mark | None) -> str:
    """`>` before the band that owns the reading, `-` before others that its error reaches."""
    if mark is None or not mark.low[0] <= index <= mark.high[0]:
        return " "
    return ">" if index == mark.band else "-"


def _cut(text: str, width: int) -> str:
    return text if len(text) <= width else text[: max(0, width - 1)] + "…"
