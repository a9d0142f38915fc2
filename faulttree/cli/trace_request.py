"""What the command line of `faulttree trace` asks for."""

import argparse
from collections.abc import Sequence
from pathlib import Path

from faulttree.core.reading import ReadingRefused, parse_reading
from faulttree.core.trace.findings import APART_S, WINDOW_S, Request
from faulttree.core.trace.header import Wanted
from faulttree.core.trace.layout import DECIMALS, SEPARATORS
from faulttree.core.trace.limits import Counting, Side
from faulttree.core.trace.lines import TraceRefused
from faulttree.core.trace.mark_texts import MarkClock, mark_in, marks_in
from faulttree.core.trace.marks import Mark
from faulttree.core.units import Quantity
from faulttree.files.traces import read_marks


def request_of(arguments: argparse.Namespace) -> Request:
    """The request.

    Raises:
        TraceRefused: an option says something that cannot be.
    """
    texts, files = tuple(arguments.mark), tuple(arguments.marks)

    def marks(clock: MarkClock) -> Sequence[Mark]:
        return [*(mark_in(text, clock) for text in texts), *_from_files(files, clock)]

    return Request(
        wanted=_wanted(arguments),
        side=Side.ABOVE if arguments.above else Side.BELOW,
        low=arguments.low,
        high=arguments.high,
        counting=Counting(
            _seconds(arguments.merge, "--merge", 0.0),
            _seconds(arguments.shortest, "--shortest", 0.0),
        ),
        gap_s=None if arguments.gap is None else _seconds(arguments.gap, "--gap", 0.0),
        apart_s=_seconds(arguments.apart, "--apart", APART_S),
        window_s=_seconds(arguments.window, "--window", WINDOW_S),
        marks=marks,
    )


def _wanted(arguments: argparse.Namespace) -> Wanted:
    return Wanted(
        column=arguments.column,
        time=arguments.time,
        unit=arguments.unit,
        time_unit=arguments.time_unit,
        rate_hz=_rate(arguments.rate),
        separator=SEPARATORS.get(arguments.separator),
        decimal=DECIMALS.get(arguments.decimal),
    )


def _from_files(files: Sequence[Path], clock: MarkClock) -> list[Mark]:
    return [mark for path in files for mark in marks_in(read_marks(path), str(path), clock)]


def _seconds(text: str | None, option: str, usual: float) -> float:
    if text is None:
        return usual
    try:
        seconds = parse_reading(text, Quantity.TIME).value
    except ReadingRefused:
        seconds = -1.0
    if seconds < 0:
        raise TraceRefused(f"{option} {text} is no length of time; write 0.5s, 20ms or 2 min.")
    return seconds


def _rate(text: str | None) -> float | None:
    """Samples a second: `100`, `100 Hz`, `2 kHz`."""
    if text is None:
        return None
    number, factor = text.strip().lower().removesuffix("hz").strip(), 1.0
    if number.endswith("k"):
        number, factor = number[:-1].strip(), 1000.0
    try:
        rate = float(number) * factor
    except ValueError:
        rate = 0.0
    if not 1e-6 <= rate <= 1e9:
        raise TraceRefused(f"--rate {text} is no number of samples a second; write 100 Hz.")
    return rate
