"""What a step would read, band by band."""

import json
from pathlib import Path

import pytest
from golden import assert_golden
from proofs import Changes, cargo, words

from faulttree.core.bench.bench import Bench
from faulttree.core.bench.looks import Supplied, supplied
from faulttree.core.circuit.netlist import Supply
from faulttree.core.proof.expected import expected_at
from faulttree.core.proof.set_up import set_up
from faulttree.files.benches import open_bench
from faulttree.render.days import day_lines
from faulttree.render.expected import expected_text
from faulttree.render.expected_json import expected_json
from faulttree.render.page import WIDTH

GOLDEN = Path(__file__).parent / "golden"
TREES = Path(__file__).parents[2] / "trees"
STEPS = ("seen", "battery-rest", "switch-feed", "fuse-look", "lamp-feed", "plug-loss", "filament")
CLOSE: Changes = (("below: 0.5 V, go: ground-drop", "below: 3.06 V, go: ground-drop"),)


def _text(step: str, changes: Changes = (), only_ascii: bool = False) -> str:
    bench, judge = cargo(changes)
    return expected_text(step, expected_at(bench, judge, step), words(bench.tree, only_ascii))


def _block(text: str, name: str) -> str:
    return next(block for block in text.split("\n\n") if block.startswith(name))


def test_the_steps_look_as_they_should():
    text = "\n".join(_text(step) for step in STEPS)
    assert_golden(GOLDEN / "expected.txt", text)


@pytest.mark.parametrize("step", STEPS)
@pytest.mark.parametrize("only_ascii", [False, True])
def test_no_line_is_wider_than_a_terminal(step, only_ascii):
    text = _text(step, only_ascii=only_ascii)
    assert max(map(len, text.splitlines())) <= WIDTH
    assert text.isascii() or not only_ascii


def test_the_healthy_car_stands_first_with_every_battery():
    head = _text("switch-feed").split("\n\n")[0]
    assert "healthy: 12.40 V ±0.08 V: + all of it (weak);" in head
    assert "(normal)" in head
    assert "(charging)" in head
    assert "healthy: 0.7 Ω ±0.3 Ω: + whole" in _text("filament")


def test_every_car_stands_in_a_band_that_it_may_lie_in():
    for step in STEPS:
        bench, judge = cargo()
        text = _text(step)
        for car in expected_at(bench, judge, step):
            name = car.row.suspect.id if car.row.suspect else "healthy"
            tree_step = bench.tree.steps[step]
            choices = getattr(tree_step, "bands", None) or tree_step.outcomes
            for place in car.places:
                block = next(b for b in text.split("\n\n") if choices[place].name in b[:40])
                assert name in block


def test_an_open_circuit_and_a_blown_fuse_are_said_in_words():
    assert "OL (open circuit)  lamp.open" in _text("filament")
    assert "a fuse blows: lamp.shorted" in _text("switch-feed")


def test_a_reading_too_close_to_call_stands_in_both_bands():
    text = _text("plug-loss", CLOSE)
    assert "plug.series (mild, or ! large)" in _block(text, "+ small")
    assert "plug.series (mild, or + small)" in _block(text, "! large")
    assert "plug.series (typical, severe)" in _block(text, "! large")


def test_an_edge_that_moves_with_the_car_shows_how_it_is_written():
    assert "below battery-voltage - 0.5 V (11.93 V to 12.25 V)" in _text("switch-feed").replace(
        "\n  ", " "
    )


def test_what_the_circuit_cannot_tell_is_said_in_one_sentence():
    blind: Changes = (
        (
            "    outcomes:\n      melted through: [{any: [{blown: fuse}, {faulty: [fuse.open]}]}]\n"
            "      whole: []\n",
            "    anything: true\n",
        ),
    )
    assert "The circuit cannot tell what is seen here" in _text("fuse-look", blind)


def test_one_battery_stands_for_all():
    bench, _ = cargo()
    supply = Supply(12.0, 0.01)
    one, judge = set_up(
        bench.tree, bench.circuit.model, bench.sheet, None,
        supplies={"as read, 12 V": Supplied(supply, supply)},
    )  # fmt: skip
    text = expected_text("battery-rest", expected_at(one, judge, "battery-rest"), words(one.tree))
    assert "healthy: 11.98 V ±0.08 V: + charged (as read, 12 V)" in text


def _data(bench: Bench, judge, step: str):
    cars = expected_at(bench, judge, step)
    return json.loads(json.dumps(expected_json(bench.tree, step, cars), allow_nan=False))


def test_as_data_every_car_has_its_reading_and_its_places():
    data = _data(*cargo(), "filament")
    assert (data["format"], data["step"], data["unit"]) == ("expected/1", "filament", "ohm")
    assert data["places"][1] == {"name": "broken", "is": "fault", "leads-to": "bulb-burnt"}
    assert len(data["cars"]) == len(cargo()[0].rows)
    burnt = next(car for car in data["cars"] if car["fault"] == "lamp.open")
    assert burnt["reading"]["low"] == burnt["reading"]["high"] == "OL"
    assert burnt["may-be"] == ["broken"]
    feed = _data(*cargo(), "switch-feed")
    blown = next(car for car in feed["cars"] if car["fault"] == "lamp.shorted")
    assert blown["said"] == ["fuse-blown"]
    assert len(blown["edges"]) == 2


def test_as_data_an_observation_has_outcomes_alone():
    data = _data(*cargo(), "fuse-look")
    assert data["unit"] is None
    (weak, _, _) = (car for car in data["cars"] if car["fault"] == "fuse.open")
    assert weak == {
        "fault": "fuse.open",
        "severity": None,
        "supply": "weak",
        "may-be": ["melted through"],
    }


def test_the_weather_that_it_holds_for_is_told_for_each_battery() -> None:
    found = open_bench(TREES / "ac-warm-at-idle" / "tree.yaml")
    model = found.circuit.document
    told = list(day_lines(supplied(found.sheet.document, model), model, words(found.tree.document)))
    assert told[0] == "day (weak): air outside 33 °C, relative humidity 40 %"
    assert [line.partition(":")[0] for line in told] == [
        "day (weak)", "day (normal)", "day (charging)"
    ]  # fmt: skip
