"""The known trace: every dropout at its place, whatever the pieces; tests/data/trace/README.md."""

import pytest
from traces import KNOWN_DROPOUTS, analysed, known_text, told

from faulttree.core.trace.suggest import Way


@pytest.mark.parametrize("lines", [0, 13, 1201])
def test_every_dropout_is_found_at_its_place(lines):
    findings = analysed(known_text(), lines, low="11", high="11")
    assert told(findings) == KNOWN_DROPOUTS
    assert findings.surveyed.samples == 6000
    assert findings.recorded_s == pytest.approx(60, abs=1e-9)
    assert findings.total_s == pytest.approx(1.42, abs=1e-9)
    assert findings.surveyed.sampling.step_s == pytest.approx(0.01, abs=1e-12)


def test_limits_taken_from_the_trace_find_the_same():
    findings = analysed(known_text())
    assert told(findings) == KNOWN_DROPOUTS
    assert findings.suggestion.way is Way.SHARE_OF_LEVEL
    assert findings.suggestion.level == pytest.approx(13.8, abs=0.01)


def test_the_dip_that_stays_above_is_found_with_a_higher_limit():
    begins = {begin for begin, _, _ in told(analysed(known_text(), low="13", high="13.4"))}
    assert begins > {begin for begin, _, _ in KNOWN_DROPOUTS}


def test_other_pieces_give_exactly_the_same():
    whole = analysed(known_text())
    for lines in (17, 4000):
        pieces = analysed(known_text(), lines)
        assert pieces.dropouts.ends.tolist() == whole.dropouts.ends.tolist()
        assert pieces.scanned.lows.tolist() == whole.scanned.lows.tolist()
        assert pieces.scanned.highs.tolist() == whole.scanned.highs.tolist()
        assert pieces.recorded_s == whole.recorded_s
        assert pieces.limits == whole.limits
