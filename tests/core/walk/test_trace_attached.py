"""A trace attached to a case: a fact beside the question, also in a closed case."""

import json

import pytest
from builders import at_verdict, lamp_case

from faulttree.core.walk import respond
from faulttree.core.walk.events import TraceAttached, event_from_json, event_to_json
from faulttree.core.walk.respond import Recorded, Refused
from faulttree.core.walk.trace_summary import TraceSummary
from faulttree.render.report_markdown import report_markdown
from faulttree.session import Session

TRACE = TraceSummary(file="road.csv", column="feed", count=2, told=("2 dropouts.",))


def test_it_is_read_back_as_it_was_recorded_and_later_fields_are_passed_over():
    event = TraceAttached(step="feed", trace=TRACE)
    data = json.loads(json.dumps(event_to_json(event)))
    assert event_from_json(data) == event
    data["trace"]["colour"] = "blue"
    assert event_from_json(data) == event


def test_the_question_stands_and_the_case_keeps_it(tmp_path):
    session = lamp_case(tmp_path)
    asked = session.ask
    assert isinstance(session.attach_trace(TRACE), Recorded)
    assert session.ask is asked
    again = Session.resume(session.folder)
    assert again.state.events[-1] == session.state.events[-1]
    assert again.state.events[-1].step == asked.step_id


def test_a_closed_case_takes_it_and_a_step_that_is_none_does_not():
    walk = at_verdict().go("accept", "1", "1", "clean", "clean", "clean", "close")
    assert isinstance(respond.attach_trace(walk.state, "feed", TRACE), Recorded)
    assert isinstance(respond.attach_trace(walk.state, "nothing", TRACE), Refused)


@pytest.mark.parametrize("name", ["ro<b>ad.csv", "a\x1bb.csv", "x\udce9.csv"])
def test_a_report_takes_its_words_for_words(name):
    walk = at_verdict()
    trace = TRACE.model_copy(update={"file": name, "sha256": "0" * 64, "listed": ("At 1 s",)})
    walk.take(respond.attach_trace(walk.state, "feed", trace))
    text = report_markdown(walk.state, "x")
    assert "## Logged traces" in text
    assert "<b>" not in text
    assert text.isprintable() or "\x1b" not in text
