"""How many clean cycles a proving run wants, and which tries count as tries before it."""

import pytest
from builders import Walk, at_verdict

from faulttree.core.walk.events import TriesCounted, event_from_json
from faulttree.core.walk.path import Stage
from faulttree.core.walk.proving_run import ProvingRun, Tries, proving_run, tries_before
from faulttree.core.walk.record import Standing, record
from faulttree.core.walk.state import fold


def repaired(*counts: str) -> Walk:
    """A walk whose verdict is proved and repaired, after these counts of tries."""
    walk = at_verdict()
    for text in counts:
        walk.count(text)
    return walk.go("accept", "1", "1")


def run_of(walk: Walk) -> ProvingRun:
    run = proving_run(walk.state, walk.at.step_id)
    assert run is not None
    return run


def cycles_to_the_end(walk: Walk) -> int:
    """Clean cycles until the walk asks for no more."""
    count = 0
    while walk.at.stage is Stage.PROVING_RUN:
        walk.go("clean")
        count += 1
    return count


def test_without_a_count_the_tree_says_how_many():
    assert cycles_to_the_end(repaired()) == 3


@pytest.mark.parametrize(
    ("told", "cycles"),
    # Smallest m with C(n, k)/C(n + m, k) at most 1/20 or 1/10: Fisher's exact test (1935)
    [("2 of 4", 12), ("3 of 10", 16), ("3 of 10 at 90 %", 11), ("10 of 10", 2), ("1 of 1", 19)],
)
def test_with_a_count_it_says_how_many(told, cycles):
    assert cycles_to_the_end(repaired(told)) == cycles


def test_what_was_never_seen_leaves_it_to_the_tree():
    run = run_of(repaired("0 of 10"))
    assert (run.wanted, run.before, run.luck) == (3, Tries(0, 10), None)


def test_the_last_count_stands_and_one_taken_back_does_not():
    assert run_of(repaired("1 of 10", "2 of 4")).wanted == 12
    assert run_of(repaired("1 of 10", "none")).wanted == 3
    walk = repaired("2 of 4")
    walk.go("clean")
    walk.count("none")
    assert run_of(walk).before is None


def test_a_count_told_during_the_run_is_marked_as_late():
    walk = repaired()
    assert not run_of(walk).is_counted_late
    walk.count("2 of 4")
    assert (run_of(walk).wanted, run_of(walk).is_counted_late) == (12, True)
    assert not run_of(repaired("2 of 4")).is_counted_late


def test_a_count_may_open_a_run_again_that_was_long_enough():
    walk = repaired().go("clean", "clean", "clean")
    assert walk.at.stage is Stage.CLOSE
    walk.count("2 of 4")
    assert walk.at.stage is Stage.PROVING_RUN


def test_a_return_counts_as_a_try_and_the_next_start_is_held_to_half_the_luck():
    walk = repaired("2 of 4").go("clean", "clean", "clean", "came back")
    run = run_of(walk)
    assert (run.clean, run.returns, run.before) == (0, 1, Tries(3, 8))
    # 56/C(25, 3) = 0.0243 is the first at most 0.025
    assert run.wanted == 17
    assert run_of(walk.go("came back")).before == Tries(4, 9)
    assert run_of(walk.go("clean", "clean")).before == Tries(4, 9)


def test_a_return_without_a_count_leaves_the_number_of_the_tree():
    walk = repaired().go("clean", "came back")
    assert (run_of(walk).wanted, run_of(walk).before) == (3, None)


def test_going_back_takes_a_return_back():
    walk = repaired("2 of 4").go("clean", "came back")
    walk.back()
    assert (run_of(walk).wanted, run_of(walk).clean) == (12, 1)


@pytest.mark.parametrize(
    ("cycles", "before"),
    [
        (("clean", "clean", "came back", "go on looking"), Tries(3, 7)),
        (("clean", "clean", "go on looking"), Tries(3, 7)),
        (("go on looking",), Tries(3, 5)),
    ],
)
def test_cycles_after_a_repair_that_did_not_help_are_tries_before_the_next(cycles, before):
    walk = repaired("2 of 4").go(*cycles)
    assert tries_before(walk.state, "lamp-open") == before


def test_a_proof_that_failed_before_any_repair_adds_no_try():
    walk = at_verdict()
    walk.count("2 of 4")
    walk.go("accept", "failed")
    assert tries_before(walk.state, "lamp-open") == Tries(2, 4)


def test_when_it_is_long_enough_one_may_go_on():
    walk = repaired("10 of 10").go("clean", "clean")
    assert walk.at.stage is Stage.CLOSE
    assert run_of(walk.go("one more")).clean == 3
    walk.go("came back")
    assert walk.at.stage is Stage.PROVING_RUN
    assert run_of(walk).before == Tries(11, 14)


def test_without_a_repair_there_is_no_run():
    walk = at_verdict().go("accept", "1", "0")
    assert proving_run(walk.state, "ground-bad") is None
    assert proving_run(walk.state, "not-settled") is None
    assert [o.key for o in walk.ask.options] == ["1"]


def test_it_says_what_the_clean_cycles_prove():
    run = run_of(repaired("2 of 4").go("clean", "clean"))
    assert run.luck == pytest.approx(6 / 15)
    assert run.largest_rate() == pytest.approx(1 - 0.05**0.5)
    assert run.largest_rate(12) == pytest.approx(1 - 0.05 ** (1 / 12))
    assert run_of(repaired()).largest_rate() is None


def test_a_count_is_kept_and_the_earlier_one_is_marked():
    walk = at_verdict()
    walk.count("2 of 4")
    walk.count("3 of 5")
    counts = [line for line in record(walk.state) if isinstance(line.event, TriesCounted)]
    assert [line.standing for line in counts] == [Standing.CHANGED, Standing.IN_FORCE]


def test_an_old_case_without_counts_folds_as_it_did():
    events = [e for e in repaired().events if not isinstance(e, TriesCounted)]
    assert fold(at_verdict().tree, at_verdict().sheet, events).tries is None


@pytest.mark.parametrize("fields", [{"seen": 3, "tries": 2}, {"seen": -1, "tries": 2}])
def test_a_count_that_cannot_be_is_no_event(fields):
    with pytest.raises(ValueError, match=r"seen"):
        event_from_json({"event": "tries-counted", "step": "feed", **fields})
