"""Whatever was done in whatever order, it can be reported."""

import json

from builders import Walk, lamp_sheet
from hypothesis import given, settings
from hypothesis import strategies as st
from random_walks import ACTIONS, act

from faulttree.render.report_json import report_json
from faulttree.render.report_markdown import report_markdown


@settings(max_examples=80, deadline=None)
@given(st.lists(ACTIONS, max_size=25), st.booleans())
def test_any_walk_can_be_reported(actions, has_sheet):
    walk = Walk(sheet=lamp_sheet() if has_sheet else None)
    for action in actions:
        act(walk, action)
    data = json.loads(json.dumps(report_json(walk.state, "x"), allow_nan=False))
    assert len(data["record"]) == len(walk.events)
    assert report_markdown(walk.state, "x").startswith("# Reversing lamp stays dark\n")
