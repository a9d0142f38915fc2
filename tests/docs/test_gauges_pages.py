"""The pages name every option and key of the gauges, and every name of a reading."""

import argparse
import re
from pathlib import Path

import gauge_tree

from faulttree.cli.gauges_options import add_options
from faulttree.core.air_conditioning.on_gauges import PLACES
from faulttree.core.walk.on_gauges import on_gauges
from faulttree.files.documents import tree_from_bytes
from faulttree.render.on_gauges_json import on_gauges_json
from faulttree.ui.commands import WALK_COMMANDS

DOCS = Path(__file__).parents[2] / "docs"
COMMANDS, WALKING, FORMAT = (
    (DOCS / f"{name}.md").read_text("utf-8") for name in ("command-line", "walking", "tree-format")
)


def test_every_option_is_on_the_page():
    parser = argparse.ArgumentParser()
    add_options(parser, Path, ("us",))
    options = {option for action in parser._actions for option in action.option_strings}
    assert {o for o in options if o not in COMMANDS} <= {"-h", "--help"}
    assert "faulttree report CASE --pictures FOLDER" in WALKING


def test_every_key_of_the_data_is_described():
    data = on_gauges_json(on_gauges(gauge_tree.walk().go(*gauge_tree.READ).state))
    figure = data["figures"][0]
    keys = {*data, *figure, *data["expected"], *data["cycle"], *data["readings"]["low-side"]}
    assert {key for key in keys if f"`{key}" not in COMMANDS} == set()


def test_every_name_of_a_reading_has_its_row_and_its_quantity():
    rows = re.findall(r"^\| (`.*?) \| `(.*?)` \| .*\|$", FORMAT, re.MULTILINE)
    listed = {name: q for names, q in rows for name in re.findall(r"`([a-z-]+)`", names)}
    assert {name: listed.get(name) for name in PLACES} == {n: q.value for n, q in PLACES.items()}


def test_the_example_of_as_is_no_mistake():
    (example,) = re.findall(r"    title: (High side at idle.*)\n    (as: high-side)\n", FORMAT)
    title, name = example
    text = gauge_tree.text(("title: Read low-side", f"title: {title}\n    {name}"))
    assert not tree_from_bytes(text.encode(), "t").problems.has_errors


def test_the_key_of_the_walk_is_on_its_page():
    (command,) = [each for each in WALK_COMMANDS if each.action == "show_gauges"]
    assert f"| `{command.key}` | high and low side:" in WALKING
