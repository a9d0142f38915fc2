"""Whatever is done in whatever order: no crash, nothing lost, and the record replays."""

import json

from builders import Walk, lamp, lamp_sheet
from hypothesis import given, settings
from hypothesis import strategies as st
from random_walks import ACTIONS, act

from faulttree.core.walk.events import event_from_json, event_to_json
from faulttree.core.walk.record import record
from faulttree.core.walk.respond import Confirm, NeedsReason, Recorded, Refused
from faulttree.core.walk.state import fold


@settings(max_examples=400, deadline=None)
@given(st.lists(ACTIONS, max_size=30), st.booleans())
def test_any_walk_keeps_what_it_recorded_and_stands_at_a_step(actions, has_sheet):
    walk = Walk(sheet=lamp_sheet() if has_sheet else None)
    for action in actions:
        before = list(walk.events)
        result = act(walk, action)
        assert result is None or isinstance(result, Recorded | Confirm | NeedsReason | Refused)
        assert walk.events[: len(before)] == before
        if not isinstance(result, Recorded):
            assert walk.events == before
        assert walk.at.step_id in lamp().steps
        assert walk.ask.step_id in lamp().steps
    _replays(walk)


def _replays(walk):
    lines = [json.dumps(event_to_json(event), allow_nan=False) for event in walk.events]
    events = [event_from_json(json.loads(line)) for line in lines]
    assert fold(walk.tree, walk.sheet, events) == walk.state
    assert [line.event for line in record(walk.state)] == walk.events


@settings(max_examples=150, deadline=None)
@given(st.lists(ACTIONS, max_size=20))
def test_any_walk_that_is_not_closed_can_be_gone_back_on_to_its_start(actions):
    walk = Walk()
    for action in actions:
        act(walk, action)
    if walk.state.closed is not None:
        return
    kept = list(walk.events)
    walk.changing = None
    while not isinstance(walk.back(), Refused):
        assert len(walk.events) <= 3 * len(kept) + 3
    assert (walk.at.step_id, walk.path) == (lamp().start, [])
    assert walk.events[: len(kept)] == kept
