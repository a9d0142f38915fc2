"""Suspects by a table of likelihoods, on the lamp tree, which has no circuit."""

from functools import cache
from pathlib import Path

import pytest
from builders import Walk, at_feed, lamp
from hypothesis import assume, given
from hypothesis import strategies as st

from faulttree.core.expression import Expression
from faulttree.core.likelihoods import LikelihoodTable
from faulttree.core.suspects.density import WRONG_LOOK
from faulttree.core.suspects.evidence import reads_of
from faulttree.core.suspects.inferred import NONE_SHARE
from faulttree.core.suspects.ranking import Suspicion
from faulttree.core.suspects.tables import TableSuspects, bands_of, spread_out
from faulttree.core.walk.events import Complaint
from faulttree.files.documents import load_likelihoods

_TABLE = Path(__file__).parents[2] / "data" / "likelihoods" / "lamp.yaml"


@cache
def _table() -> LikelihoodTable:
    return load_likelihoods(_TABLE, lamp()).document


def _suspicion(walk: Walk) -> Suspicion:
    reads = reads_of(walk.state)
    return TableSuspects(_table(), walk.tree).after(reads, bands_of(walk.state, reads))


def _shares(suspicion: Suspicion) -> dict[str, float]:
    return {ranked.suspect.id: ranked.share for ranked in suspicion.ranked}


@given(
    st.dictionaries(st.sampled_from("abcd"), st.integers(0, 25), min_size=1, max_size=4),
    st.integers(0, 2),
)
def test_what_a_row_leaves_out_is_spread_evenly(row: dict[str, int], more: int) -> None:
    names = tuple("abcdef"[: 4 + more])
    assume(any(row.values()) or len(row) < len(names))
    written = {name: Expression.parse(f"{share} %") for name, share in row.items()}
    found = spread_out(written, names)
    assert sum(found.values()) == pytest.approx(1.0)
    left = [found[name] for name in names if name not in row]
    assert max(left, default=0.0) == pytest.approx(min(left, default=0.0))
    if left:
        assert all(found[name] == pytest.approx(share / 100) for name, share in row.items())


def test_shares_that_are_a_whole_but_for_rounding_are_made_one() -> None:
    row = {name: Expression.parse("33.4 %") for name in "abc"}
    assert spread_out(row, ("a", "b", "c")) == pytest.approx(dict.fromkeys("abc", 1 / 3))


def test_it_is_bayes_by_hand() -> None:
    """One look, the complaint unknown; bulb and fuse are there for good, the others may be away."""
    walk = Walk().go("12.60", "stays dark")
    table, slip, names = _table(), WRONG_LOOK, 3

    def chance(share: float) -> float:
        return (1 - slip) * share + slip / names

    healthy = chance(0.01)
    there = {
        "bulb": chance(0.98), "fuse": chance(0.98), "feed-wire": chance(0.98),
        "switch": chance(0.6), "ground": chance(0.4),
    }  # fmt: skip
    comes = {"feed-wire": 0.3, "switch": 0.4, "ground": 0.5}
    weights = {}
    for name, suspect in table.suspects.items():
        good = 0.5 if name in comes else 1.0
        away = comes.get(name, 1.0) * there[name] + (1 - comes.get(name, 1.0)) * healthy
        weights[name] = suspect.weight * (good * there[name] + (1 - good) * away)
    whole = sum(s.weight for s in table.suspects.values())
    as_some = sum(table.suspects[n].weight * t for n, t in there.items()) / whole
    anything = (as_some + 1 / names) / 2
    odd = sum((1 - share) * healthy + share * anything for share in (0, 0.1, 0.3, 0.6, 1)) / 5
    total = sum(weights.values()) + NONE_SHARE * whole * odd
    found = _suspicion(walk)
    expected = {n: pytest.approx(w / total, abs=1e-9) for n, w in weights.items()}
    assert _shares(found) == expected
    assert found.none == pytest.approx(NONE_SHARE * whole * odd / total, abs=1e-9)


@pytest.mark.parametrize(
    ("answers", "part"),
    [
        (("stays dark", "both light", "21 W", "OL"), "reversing lamp"),
        (("stays dark", "one lights", "21 W", "7 ohm"), "fuse F4"),
        (("glows dim", "12.50", "1.20"), "earth wire of the reversing lamp"),
        (("glows dim", "0.30", "done", "lights"), "reversing switch"),
        (
            ("stays dark", "both light", "21 W", "7 ohm", "0.30", "done", "stays dark"),
            "feed wire of the reversing lamp",
        ),
    ],
)
def test_each_fault_is_found_by_the_readings_it_gives(answers: tuple[str, ...], part: str) -> None:
    walk = Walk()
    walk.complaint(Complaint.PRESENT)
    found = _suspicion(walk.go("12.60", *answers))
    assert found.ranked[0].suspect.part == part
    assert found.ranked[0].share > 0.6
    assert found.ranked[0].speaks, "it tells which readings say so"


def test_a_step_that_the_table_leaves_out_says_nothing() -> None:
    before = _shares(_suspicion(Walk()))
    assert _shares(_suspicion(Walk().go("12.60"))) == pytest.approx(before)


def test_a_reading_too_close_to_call_counts_for_both_bands() -> None:
    """0.2 V of loss is sound or lossy; it may be either, and tells less than each of them."""
    shares = []
    for typed in ("0.05", "0.200", "1.20"):
        walk = at_feed().go("12.50", typed)
        reads = reads_of(walk.state)
        bands = bands_of(walk.state, reads)[reads[-1].seq]
        assert len(bands) == (2 if typed == "0.200" else 1)
        shares.append(_shares(_suspicion(walk))["ground"])
    sound, close, lossy = shares
    assert sound < close < lossy


def test_one_reading_neither_clears_nor_condemns_for_good() -> None:
    """The author wrote 98 of 100; a slip of the pen is allowed for beside it."""
    walk = Walk()
    walk.complaint(Complaint.PRESENT)
    walk.go("12.60", "stays dark", "one lights")
    assert _shares(_suspicion(walk))["bulb"] > 0.001
    assert _suspicion(walk).none > 0.0
