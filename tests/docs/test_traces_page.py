"""docs/traces.md and docs/command-line.md name every key and option there is, and show what is."""

import re
from pathlib import Path

from traces import KNOWN, analysed, feed_text, known_text

from faulttree.cli.main import parser
from faulttree.core.trace.marks import Mark
from faulttree.render.trace_json import trace_json
from faulttree.render.trace_text import trace_text
from faulttree.render.trace_words import TraceWords

DOCS = Path(__file__).parents[2] / "docs"
PAGE = (DOCS / "traces.md").read_text("utf-8")
COMMANDS = (DOCS / "command-line.md").read_text("utf-8")


def _keys(data):
    if isinstance(data, dict):
        for key, value in data.items():
            yield key
            yield from _keys(value)
    elif isinstance(data, list):
        for each in data:
            yield from _keys(each)


def _marks(clock):
    return [Mark(0.2, "tap")]


def test_every_key_of_the_data_is_described():
    text = feed_text([13.8] * 50 + [2.0] + [13.8] * 50).replace("\n0.1,13.8", "\n0.1,")
    data = trace_json(TraceWords(analysed(text, marks=_marks), "feed.csv"))
    assert data["gaps"]
    assert data["marks"]
    assert data["dropouts"]
    assert not {key for key in _keys(data) if f"`{key}`" not in PAGE}


def test_every_option_is_on_both_pages():
    text = parser().format_help()
    assert "trace" in text
    action = parser()._subparsers._group_actions[0]
    options = re.findall(r"--[a-z-]+", action.choices["trace"].format_help())
    missing = {option for option in options if option not in COMMANDS} - {"--help"}
    assert not missing
    assert not {o for o in options if o not in PAGE} - {"--help", "--all"}


def test_the_sample_is_what_the_program_says():
    sample = re.search(r"<!-- SAMPLE of `(.*?)` -->\n```\n(.*?)```\n<!-- END", PAGE, re.S)
    assert sample
    assert sample[1].endswith(KNOWN.name)
    assert sample[2] == trace_text(TraceWords(analysed(known_text()), KNOWN.name))


def test_the_bound_that_no_dropout_leaves_is_the_one_told():
    rate = analysed(feed_text([13.8] * 6000), low="11").rate
    assert f"No dropout in 60 s still allows up to {rate.high:.0f} per hour" in PAGE.replace(
        "\n", " "
    )
