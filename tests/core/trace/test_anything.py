"""Whatever stands in a file, it is read or refused in a sentence with a place in the file."""

from contextlib import suppress

from hypothesis import given, settings
from hypothesis import strategies as st
from traces import analysed

from faulttree.core.trace.header import Wanted
from faulttree.core.trace.limits import Side
from faulttree.core.trace.lines import TraceRefused
from faulttree.render.trace_json import trace_json
from faulttree.render.trace_text import trace_text
from faulttree.render.trace_words import TraceWords

PIECES = st.sampled_from(
    [
        *("t_s", "volts", "Time (ms)", "U/V", "°C", "A", "x", "", " ", '"', '""', "#", "%", "-"),
        *("0", "1", "2", "1.5", "1,5", "-3e2", "1e308", "-1e308", "1e-300", "NaN", "OL", "é"),
        *("09:30:15", "23:59:59.5", "00:00:00", "2026-11-25T09:30:15+01:00", "99:99:99"),
        *("2026-13-45 00:00:00", "9" * 40, "\x00", "\x1b[2J", "\udce9"),
    ]
)
LINES = st.lists(st.lists(PIECES, max_size=4), max_size=12)


@given(lines=LINES, separator=st.sampled_from(",;\t"), rate=st.booleans(), above=st.booleans())
@settings(max_examples=300)
def test_any_lines_are_read_or_refused(lines, separator, rate, above):
    text = "".join(f"{separator.join(cells)}\n" for cells in lines)
    _read_or_refused(text.encode("utf-8", "replace").decode(), rate, above)


@given(
    rows=st.lists(st.tuples(PIECES, PIECES), min_size=2, max_size=12),
    rate=st.booleans(),
    above=st.booleans(),
)
@settings(max_examples=300)
def test_any_cells_below_a_header_are_read_or_refused(rows, rate, above):
    text = "t_s;volts\n0;1\n" + "".join(f"{time};{value}\n" for time, value in rows)
    _read_or_refused(text.encode("utf-8", "replace").decode(), rate, above)


def _read_or_refused(text, rate, above):
    wanted = Wanted(unit="V", time_unit="s", rate_hz=10.0 if rate else None)
    with suppress(TraceRefused):
        findings = analysed(text, wanted=wanted, side=Side.ABOVE if above else Side.BELOW)
        words = TraceWords(findings, "log.csv")
        assert "\x1b" not in trace_text(words)
        assert trace_json(words)["samples"] > 1
