"""docs/suspects.md states every number that is assumed, and names every key of the data."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from builders import answered
from lamp_circuit import at_feed

from faulttree.core.circuit.faults import USUAL_CHANCE
from faulttree.core.suspects import density, grid, inferred, on_bench, spread, twos
from faulttree.core.units import Quantity
from faulttree.ui.commands import WALK_COMMANDS

PAGE = (Path(__file__).parents[2] / "docs" / "suspects.md").read_text("utf-8")


def _row(words: str) -> str:
    (row,) = [line for line in PAGE.splitlines() if line.startswith(f"| {words}")]
    return row


def _percent(share: float) -> str:
    return f"{100 * share:g} %"


@pytest.mark.parametrize(
    ("words", "values"),
    [
        ("chance that a reading has nothing to do", [_percent(density.SLIP)]),
        ("the same for what is seen", [_percent(density.WRONG_LOOK)]),
        ("resistances of a real car", [_percent(spread.TOLERANCE)]),
        (
            "spread that no model",
            [
                f"{spread.LEAST[Quantity.VOLTAGE]:g} V",
                f"{spread.LEAST[Quantity.CURRENT]:g} A",
                f"{spread.LEAST[Quantity.RESISTANCE]:g} Ω",
            ],
        ),
        ("chance that a car differs", [_percent(density.STRETCHED)]),
        (
            "spread of a battery",
            [f"{v:g} V" for v in (spread.AS_MEASURED_V, spread.AT_REST_V, spread.GENERATOR_V)],
        ),
        ("spread of what the battery loses", [_percent(spread.SAG)]),
        ("spread of a pressure", [_percent(spread.INPUT_SHARE), f"{spread.INPUT_K:g} K"]),
        ("chance of *none of these*", [_percent(inferred.NONE_SHARE)]),
        ("chance of a second fault", [_percent(twos.PAIR_SHARE)]),
        ("pairs are thought of", [_percent(inferred.PAIRS_FROM)]),
        ("a fault that comes and goes is there", [_percent(inferred.PERMANENT_SHARE)]),
        ("else it is there at a look", [_percent(USUAL_CHANCE)]),
        ("the complaint shows on a car", [_percent(chance) for chance in on_bench.SHOWS]),
        ("a fault may be smaller", [f"{grid.BEYOND:g}"]),
    ],
)
def test_every_assumed_number_is_stated(words, values):
    row = _row(words)
    for value in values:
        assert value in row, row
    assert density.STRETCH == 3.0, "the page says three times"


def test_it_says_that_these_numbers_have_no_source():
    assert "common practice, no source" in PAGE


def _keys(data: Any) -> Iterator[str]:
    if isinstance(data, dict):
        for key, value in data.items():
            yield key
            if key != "speaks":
                yield from _keys(value)
    elif isinstance(data, list):
        for each in data:
            yield from _keys(each)


def test_every_key_of_the_data_is_described(tmp_path):
    session = answered(at_feed(tmp_path), "11.6")
    found = set(_keys(session.circuit.suspects.report_data(session.state)))
    found |= {"cannot-tell"}
    assert {key for key in found if f"`{key}`" not in PAGE} == set()


def test_the_key_is_the_one_that_the_walk_has():
    (command,) = [c for c in WALK_COMMANDS if c.action == "show_suspects"]
    assert re.search(rf"`{command.key}` opens the list", PAGE)
