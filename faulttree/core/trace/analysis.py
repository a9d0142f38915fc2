"""A trace read and scanned, in two passes over its blocks.

The first pass tells what the second needs: the usual step, which makes a gap; the usual level,
which makes limits; the length, which makes the columns of the picture. Neither holds more of the
trace than one block.
"""

from collections.abc import Callable, Iterable

from faulttree.core.trace.arrays import Rows
from faulttree.core.trace.block import BlockReader
from faulttree.core.trace.envelope import Envelope
from faulttree.core.trace.findings import Findings, Request, Scanned
from faulttree.core.trace.given import limits_given
from faulttree.core.trace.header import Columns, choose_columns
from faulttree.core.trace.layout import layout_of
from faulttree.core.trace.limits import Limits
from faulttree.core.trace.lines import Block
from faulttree.core.trace.mark_texts import MarkClock
from faulttree.core.trace.marks import episodes_of, follow
from faulttree.core.trace.sampler import Sampler
from faulttree.core.trace.scan import Scanner
from faulttree.core.trace.suggest import suggest
from faulttree.core.trace.survey import Survey, Surveyed

Blocks = Callable[[], Iterable[Block]]
"""Gives the blocks of a file from its beginning; each time the same."""


def analyse(head: str, blocks: Blocks, request: Request) -> Findings:
    """Find the dropouts of a trace and what they follow.

    Args:
        head: the first lines of the file, whole.
        blocks: all of it.
        request: what is asked.

    Raises:
        TraceRefused: the file cannot be read as a trace, or something asked for is not there.
    """
    layout = layout_of(head, request.wanted.separator, request.wanted.decimal)
    columns = choose_columns(layout, request.wanted)
    limits, suggestion = limits_given(request.low, request.high, request.side, columns.unit), None
    reader = BlockReader(layout, columns)
    surveyed = _survey(map(reader.read, blocks()), columns, request)
    marks = sorted(request.marks(MarkClock(columns, surveyed.began)), key=lambda mark: mark.at_s)
    if limits is None:
        suggestion = suggest(surveyed, columns.unit.quantity, request.side)
        limits = suggestion.limits
    reader = BlockReader(layout, columns)
    found = _scan(map(reader.read, blocks()), columns, surveyed, limits, request)
    episodes = episodes_of(found.dropouts, request.apart_s)
    follows = follow(episodes, marks, request.window_s, found.stretches)
    read = (request, layout, columns, surveyed, limits, suggestion)
    return Findings(*read, found, reader.cut_line, episodes, tuple(marks), follows)


def _survey(pieces: Iterable[Rows], columns: Columns, request: Request) -> Surveyed:
    survey = Survey(columns.is_clock, request.gap_s)
    for rows in pieces:
        survey.look(rows)
    return survey.surveyed()


def _scan(
    pieces: Iterable[Rows], columns: Columns, surveyed: Surveyed, limits: Limits, request: Request
) -> Scanned:
    sampler = Sampler(surveyed.sampling, columns.is_clock, surveyed.is_sparse)
    scanner = Scanner(limits, request.counting, surveyed.sampling)
    envelope = Envelope(surveyed.duration_s, min(request.picture_columns, surveyed.samples))
    for rows in pieces:
        samples = sampler.sample(rows)
        scanner.scan(samples)
        envelope.add(samples)
    dropouts, short = scanner.found()
    return Scanned(dropouts, short, sampler.stretches(), envelope.lows, envelope.highs)
