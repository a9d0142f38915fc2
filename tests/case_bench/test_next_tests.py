"""The best next tests of a case, and a test taken aside from the tree on that advice."""

import threading
from concurrent.futures import ThreadPoolExecutor

import pytest
from builders import answered
from lamp_circuit import at_feed, begun

from faulttree.case_bench import next_tests_on_bench
from faulttree.case_bench.documents import CaseDocuments
from faulttree.case_bench.next_tests import CaseNextTests
from faulttree.case_bench.suspects import CaseSuspects
from faulttree.case_bench.why_not import CannotTellError
from faulttree.core.walk.asks import AskKind
from faulttree.core.walk.path import Stage
from faulttree.core.walk.record import Standing, record
from faulttree.core.walk.respond import NeedsReason, Recorded, Refused
from faulttree.files import cases
from faulttree.render.report_json import report_json
from faulttree.render.report_markdown import report_markdown
from faulttree.session import Session


def _why_not(session: Session) -> str:
    return session.circuit.why_no_next_tests(session.state)


def _advised(session: Session):
    return session.circuit.next_tests.after(session.state)


def _best(session: Session) -> list[str]:
    return [proposal.step_id for proposal in _advised(session).best]


def _report(session: Session) -> str:
    return " ".join(report_markdown(session.state, "case").split())


# ------------------------------------------------------------------------------- what is advised


def test_a_test_that_parts_the_suspects_in_less_time_comes_before_the_trees_own(tmp_path):
    """Switch or ground: the ground takes 2 minutes to measure, the feed 3 (tests/data/lamp)."""
    advised = _advised(at_feed(tmp_path))
    first, own = advised.best[0], advised.proposals.own
    assert first.step_id == "ground-drop"
    assert first.minutes == 2
    assert first.regret == 0
    assert own.step_id == "feed"
    assert own.regret == pytest.approx(own.expected - first.expected)
    assert advised.saves(first) == pytest.approx(own.regret)
    lossy = next(leaves for leaves in first.leaves if leaves.outcome == "lossy")
    assert dict(lossy.parts) == {"ground of the lamp": 1.0}


def test_what_was_done_or_cannot_be_done_is_not_advised(tmp_path):
    session = at_feed(tmp_path)
    assert {"battery-rest", "lamp-seen"}.isdisjoint(_best(session))
    session.aside("ground-drop")
    session.skip("rusted")
    assert "ground-drop" not in _best(session)


def test_only_tests_that_can_be_judged_and_done_with_what_is_fitted_are_advised(tmp_path):
    session = at_feed(tmp_path)
    assert "feed-drop" not in _best(session), "it is worked out from a reading to come"
    assert "bypass-seen" not in _best(session), "no bypass is fitted"


def test_they_are_kept_until_something_is_answered(tmp_path, monkeypatch):
    built = []
    real = next_tests_on_bench.Bench

    def counted(*arguments):
        built.append(arguments)
        return real(*arguments)

    monkeypatch.setattr(next_tests_on_bench, "Bench", counted)
    session = at_feed(tmp_path)
    assert session.circuit.next_tests.known(session.state) is None
    first = _advised(session)
    session.add_note("rain")
    assert session.circuit.next_tests.known(session.state) is first
    session.aside("ground-drop")
    answered(session, "0.05")
    assert session.circuit.next_tests.known(session.state) is None
    assert _advised(session) is not first
    assert len(built) == 1, "the tables hold for the car, whatever was read"
    session.measure_battery("12.1")
    _advised(session)
    assert len(built) == 2
    assert len(built[0][3]) == 1, "one battery"


def test_several_threads_may_ask_at_once(tmp_path):
    session = at_feed(tmp_path)
    barrier = threading.Barrier(4)

    def ask(_: int):
        barrier.wait(5)
        return _advised(session)

    with ThreadPoolExecutor(4) as pool:
        assert len(set(map(id, pool.map(ask, range(4))))) == 1


def test_the_same_comes_of_the_folder_alone(tmp_path):
    session = at_feed(tmp_path)
    documents = CaseDocuments(session.folder)
    again = CaseNextTests(documents, CaseSuspects(documents))
    best = again.after(Session.resume(session.folder).state).best
    assert [p.step_id for p in best] == _best(session)


def test_without_bench_or_after_the_end_it_is_one_sentence(tmp_path):
    session = at_feed(tmp_path)
    (session.folder / cases.BENCH).unlink()
    assert "so the next test cannot be worked out" in _why_not(session)
    with pytest.raises(CannotTellError, match="bench"):
        _advised(session)
    session.circuit.shows_next_tests = False
    assert _why_not(session) == "Next tests are not shown in this case."


def test_a_bench_that_does_not_fit_is_one_sentence_and_the_walk_goes_on(tmp_path):
    session = at_feed(tmp_path)
    bench = session.folder / cases.BENCH
    bench.write_text(bench.read_text("utf-8").replace("  feed: {}", "  fed: {}"), "utf-8")
    with pytest.raises(CannotTellError) as error:
        _advised(session)
    assert "\n" not in str(error.value)
    answered(session, "11.6")


def test_once_a_conclusion_is_accepted_there_is_nothing_to_advise(tmp_path):
    session = answered(begun(tmp_path), "12.60", "lights", "1")
    assert "while the fault is looked for" in _why_not(session)
    assert isinstance(session.aside("feed"), Refused)


# ---------------------------------------------------------------------------- aside, and back


def test_a_test_aside_is_asked_answered_and_kept_and_the_tree_goes_on_where_it_stood(tmp_path):
    session = at_feed(tmp_path)
    assert session.aside("ground-drop", 2.0) == Recorded(())
    assert session.is_aside
    assert (session.ask.step_id, session.ask.kind) == ("ground-drop", AskKind.READING)
    assert session.position.step_id == "feed"
    answered(session, "0.05")
    assert not session.is_aside
    assert session.ask.step_id == "feed"
    line = record(session.state)[-1]
    assert line.standing is Standing.ASIDE
    assert (line.event.aside.instead_of, line.event.aside.saves_min) == ("feed", 2.0)
    parts = {p.name: p.share.now for p in session.circuit.suspects.after(session.state).parts}
    assert parts["ground of the lamp"] < 0.01, "it is evidence like any other"


def test_the_answer_counts_when_the_tree_comes_to_the_step(tmp_path):
    session = at_feed(tmp_path)
    session.aside("ground-drop")
    answered(session, "1.20", "12.50")
    assert [v.step_id for v in session.position.path][-2:] == ["feed", "ground-drop"]
    assert session.position.stage is Stage.VERDICT
    text = _report(session)
    assert "Tests taken aside from the tree" not in text, "it stands on the path"
    assert "taken aside: advised by the circuit model in place of “Feed at the lamp" in text


def test_nothing_is_recorded_before_it_is_answered_so_a_resumed_walk_is_at_the_trees_step(tmp_path):
    session = at_feed(tmp_path)
    before = session.state.events
    session.aside("ground-drop")
    assert session.state.events == before
    again = Session.resume(session.folder)
    assert (again.ask.step_id, again.is_aside) == ("feed", False)
    session.return_to_tree()
    assert session.ask.step_id == "feed"


def test_what_was_taken_aside_is_there_after_resuming(tmp_path):
    session = at_feed(tmp_path)
    session.aside("ground-drop", 1.7)
    answered(session, "0.05")
    again = Session.resume(session.folder)
    assert again.state == session.state
    assert again.state.answers["ground-drop"].aside.saves_min == 1.7


def test_going_back_leaves_the_test_aside_and_then_withdraws_the_last_answer(tmp_path):
    session = at_feed(tmp_path)
    session.aside("ground-drop")
    session.go_back()
    assert (session.ask.step_id, session.is_aside) == ("feed", False)
    session.aside("ground-drop")
    answered(session, "0.05")
    session.go_back()
    assert "ground-drop" not in session.state.answers
    assert session.ask.step_id == "feed"
    assert "ground-drop" in _best(session)


def test_skipping_aside_skips_that_test_and_not_the_trees(tmp_path):
    session = at_feed(tmp_path)
    session.aside("ground-drop")
    assert isinstance(session.skip(""), NeedsReason)
    session.skip("no way to reach it")
    assert not session.is_aside
    assert session.ask.step_id == "feed"
    assert "**Ground of the lamp**: not done: no way to reach it" in _report(session)


def test_what_a_test_lacks_is_asked_first_and_it_stays_aside(tmp_path):
    session = at_feed(tmp_path)
    session.aside("lamp-resistance")
    assert session.ask.kind is AskKind.VEHICLE_TEXT
    answered(session, "P21W")
    assert session.is_aside
    session.measure_battery("12.4")
    session.add_note("rust")
    session.set_complaint("present")
    assert (session.is_aside, session.ask.step_id) == (True, "lamp-resistance")
    answered(session, "1.2")
    assert session.ask.step_id == "feed"


def test_a_reading_aside_that_is_too_close_waits_for_the_tree(tmp_path):
    session = at_feed(tmp_path)
    session.aside("ground-drop")
    answered(session, "0.2")
    assert session.ask.step_id == "feed"
    assert "too close to call" in _report(session)
    answered(session, "12.50")
    assert (session.position.step_id, session.position.stage) == ("ground-drop", Stage.TOO_CLOSE)


def test_a_reading_aside_can_be_changed_and_stays_one_taken_aside(tmp_path):
    session = at_feed(tmp_path)
    session.aside("ground-drop", 2.0)
    answered(session, "1.20")
    assert session.begin_change("ground-drop") == Recorded(())
    answered(session, "0.05")
    assert session.state.answers["ground-drop"].aside.saves_min == 2.0
    assert session.ask.step_id == "feed"


def test_the_trees_own_step_is_never_aside(tmp_path):
    session = at_feed(tmp_path)
    session.aside("ground-drop")
    session.aside("feed")
    assert not session.is_aside
    answered(session, "11.6")
    assert session.state.answers["feed"].aside is None


@pytest.mark.parametrize("step_id", ["lamp-seen", "fit-bypass", "lamp-open", "no-such-step"])
def test_what_cannot_be_taken_aside_is_refused_in_a_sentence(tmp_path, step_id):
    session = at_feed(tmp_path)
    outcome = session.aside(step_id)
    assert isinstance(outcome, Refused)
    assert outcome.message.endswith(".")
    assert not session.is_aside


def test_another_window_that_answers_ends_what_was_asked_aside(tmp_path):
    session = at_feed(tmp_path)
    other = Session.resume(session.folder)
    session.aside("ground-drop")
    answered(other, "11.6")
    assert isinstance(session.answer("0.05"), Refused)
    assert not session.is_aside
    assert "ground-drop" not in session.state.answers


def test_the_report_tells_the_path_and_beside_it_what_was_taken_aside_and_why(tmp_path):
    session = at_feed(tmp_path)
    session.aside("ground-drop", 2.2)
    answered(session, "0.05")
    text = _report(session)
    path, aside = text.split("## Tests taken aside from the tree")
    assert "Ground of the lamp" not in path.split("## Step by step")[1]
    assert "**Ground of the lamp**: 0.05 V ±0.005 V, sound (good)" in aside
    assert (
        "taken aside: advised by the circuit model in place of “Feed at the lamp, lamp in place”, "
        "which was to take about 2 minutes more on average"
    ) in aside
    assert "set aside" not in aside, "it is told once"
    data = report_json(session.state, "case")
    assert [each["step"] for each in data["aside"]] == ["ground-drop"]
    assert data["record"][-1]["aside"] == {"instead_of": "feed", "saves_min": 2.2}
