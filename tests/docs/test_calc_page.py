"""docs/calc.md names every sum, its example and every key of the data, and its sample is true."""

import re
from pathlib import Path
from typing import Any

import pytest
from sums import done

from faulttree.cli.sums import as_text
from faulttree.core.calc.registry import FAMILIES, SUMS
from faulttree.core.units import UnitSystem
from faulttree.render.calc import result_lines
from faulttree.render.calc_json import answered_json, sum_json, sums_json

DOCS = Path(__file__).parents[2] / "docs"
PAGE = (DOCS / "calc.md").read_text("utf-8")


@pytest.mark.parametrize("name", SUMS)
def test_every_sum_has_its_row(name):
    the_sum = SUMS[name]
    assert f"| `{name}` | {the_sum.title} | `{the_sum.example}` |" in PAGE


def test_the_rows_are_those_of_sums_there_are():
    rows = re.findall(r"^\| `([a-z-]+)` \| .* \| `", PAGE, re.M)
    assert rows == list(SUMS)
    assert all(f"**{family}**" in PAGE for family, _ in FAMILIES)


def test_every_key_of_the_data_is_described():
    data: list[Any] = [sums_json(), sum_json(SUMS["joint"]), answered_json(done("joint 0.3V 12A"))]
    keys = set()
    while data:
        each = data.pop()
        if isinstance(each, dict):
            keys |= each.keys()
            data.extend(each.values())
        elif isinstance(each, list):
            data.extend(each)
    assert [key for key in sorted(keys) if f"`{key}`" not in PAGE] == []


def test_the_sample_is_what_the_program_prints():
    (typed, shown) = re.search(r"\$ faulttree calc (.*)\n((?:.*\n)*?)```", PAGE).groups()
    assert shown == as_text(result_lines(done(typed), UnitSystem.METRIC)) + "\n"


def test_the_command_is_on_its_page():
    commands = (DOCS / "command-line.md").read_text("utf-8")
    for text in ("faulttree calc [NAME [INPUT…]]", "--units us|metric|both", "--ids", "calc.md"):
        assert text in commands
