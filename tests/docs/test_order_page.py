"""docs/order.md names every key, and its sample is what the program tells."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from orders import cargo_order

from faulttree.render.order_json import order_json
from faulttree.render.order_text import order_text

DOCS = Path(__file__).parents[2] / "docs"
PAGE = (DOCS / "order.md").read_text("utf-8")
COMMANDS = (DOCS / "command-line.md").read_text("utf-8")


def _keys(data: Any) -> Iterator[str]:
    if isinstance(data, dict):
        for key, value in data.items():
            yield key
            yield from _keys(value)
    elif isinstance(data, list):
        for each in data:
            yield from _keys(each)


def test_every_key_of_the_data_is_described():
    missing = {k for k in _keys(order_json(cargo_order())) if f"`{k}" not in PAGE}
    assert not missing


def test_the_sample_is_what_the_program_tells():
    (sample,) = re.findall(r"<!-- SAMPLE .*?```\n(.*?)```", PAGE, re.DOTALL)
    assert sample in order_text(cargo_order())


def test_the_command_is_on_its_page():
    for option in ("faulttree order TREE", "--supply", "--write", "--vehicle", "order.md"):
        assert option in COMMANDS
