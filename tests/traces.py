"""What tests of traces share: the known trace, traces made up, and a scan sample by sample."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import numpy as np

from faulttree.core.trace.analysis import analyse
from faulttree.core.trace.arrays import Samples
from faulttree.core.trace.findings import Findings, Request
from faulttree.core.trace.limits import Counting, Limits, Sampling, Side
from faulttree.core.trace.lines import Block

KNOWN = Path(__file__).parent / "data" / "trace" / "feed.csv"
KNOWN_DROPOUTS = [
    (3.2, 0.04, 0.174),
    (11.5, 0.15, 5.959),
    (11.8, 0.02, 5.489),
    (25.0, 1.2, -0.067),
    (40.0, 0.01, 8.963),
]
"""Begin [s], length [s], lowest reading [V] of its stretches below 11 V: data/trace/README.md."""


def known_text() -> str:
    """The known trace."""
    return KNOWN.read_text("ascii")


def feed_text(values: Sequence[float], step_s: float = 0.01) -> str:
    """A trace of these readings [V]."""
    rows = (f"{i * step_s:.6g},{value:.6g}\n" for i, value in enumerate(values))
    return "t_s,volts\n" + "".join(rows)


def analysed(text: str, lines: int = 0, is_cut: bool = False, **asked: Any) -> Findings:
    """What is found in a trace.

    Args:
        text: the file.
        lines: lines in a block; all at once where it is 0.
        is_cut: the last line has no end.
        asked: the request.
    """
    whole = text.splitlines(keepends=True)

    def blocks() -> Iterator[Block]:
        count = lines or len(whole)
        for at in range(0, len(whole), count):
            is_last = at + count >= len(whole)
            end = "\n" if is_last and is_cut else ""
            data = "".join(whole[at : at + count]) + end
            yield Block(data.encode(), at + 1, is_last and is_cut)

    return analyse(text, blocks, Request(**asked))


def told(findings: Findings) -> list[tuple[float, float, float]]:
    """Begin [s], length [s] and extreme of every dropout, to a microsecond."""
    found = findings.dropouts
    return [
        (round(float(b), 6), round(float(d), 6), float(e))
        for b, d, e in zip(found.begins, found.durations, found.extremes, strict=True)
    ]


def scanned_one_by_one(
    samples: Samples, limits: Limits, counting: Counting, sampling: Sampling
) -> list[list[float]]:
    """Dropouts found by a machine that looks at one sample after the other.

    Returns:
        Begin, end, extreme, what is unseen, and stretch of each.
    """
    is_below = limits.side is Side.BELOW
    further = min if is_below else max
    breaks, runs, run, before = set(samples.breaks.tolist()), [], None, 0.0
    stretch = -1
    for index, (time, value) in enumerate(zip(samples.times, samples.values, strict=True)):
        if index in breaks:
            stretch += 1
            if run:
                runs.append([run[0], before + sampling.step_s, run[2], run[3] | 2, run[4]])
                run = None
        is_beyond = value < limits.low if is_below else value > limits.high
        is_back = value > limits.high if is_below else value < limits.low
        if run and is_back:
            runs.append([run[0], time, *run[2:]])
            run = None
        elif run:
            run[2] = further(run[2], value)
        elif is_beyond:
            run = [time, 0.0, value, 1 if index in breaks else 0, stretch]
        before = time
    if run:
        runs.append([run[0], before + sampling.step_s, run[2], run[3] | 2, run[4]])
    merged = _merged(runs, counting.merge_s - sampling.tolerance_s, further)
    return [r for r in merged if r[1] - r[0] >= counting.shortest_s - sampling.tolerance_s]


def _merged(runs: list[Any], pause_s: float, further: Any) -> list[Any]:
    merged: list[Any] = []
    for run in runs:
        last = merged[-1] if merged else None
        if last and last[4] == run[4] and run[0] - last[1] < pause_s:
            last[1], last[2], last[3] = run[1], further(last[2], run[2]), last[3] | run[3] & 2
        else:
            merged.append(list(run))
    return merged


def samples_of(
    values: Sequence[float], breaks: Sequence[int] = (), step_s: float = 0.01
) -> Samples:
    """Samples at equal steps; the first of all begins a stretch."""
    times = np.arange(len(values)) * step_s
    first = [0] if len(values) else []
    return Samples(times, np.array(values, float), np.array(sorted({*first, *breaks}), np.intp))
