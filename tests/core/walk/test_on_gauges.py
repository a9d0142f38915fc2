"""What a walk has read on gauges and pipes: by id or `as`, the last one that stands."""

import gauge_tree
import pytest
from builders import Walk

from faulttree.core.air_conditioning.on_gauges import (
    AMBIENT,
    DISCHARGE,
    HIGH_SIDE,
    HUMIDITY,
    LIQUID,
    LOW_SIDE,
    PLACES,
    SUCTION,
)
from faulttree.core.circuit.loop_document import SHOWN
from faulttree.core.refrigerant.refrigerant import Refrigerant
from faulttree.core.walk.on_gauges import on_gauges
from faulttree.files.documents import tree_from_bytes


def values(walk):
    return {name: read.value.value for name, read in on_gauges(walk.state).reads.items()}


def test_the_names_are_those_that_a_circuit_model_has():
    same = PLACES.keys() - {AMBIENT, HUMIDITY}
    assert {name: SHOWN[name].quantity for name in same} == {n: PLACES[n] for n in same}


def test_everything_is_taken_by_its_name():
    walk = gauge_tree.walk().go(*gauge_tree.READ)
    on = on_gauges(walk.state)
    assert (on.refrigerant, on.altitude, on.why_no_refrigerant) == (Refrigerant.R134A, 300.0, "")
    assert values(walk) == {
        LOW_SIDE: 193e3,
        HIGH_SIDE: 1448e3,
        SUCTION: 285.15,
        DISCHARGE: 353.15,
        LIQUID: 318.15,
        AMBIENT: 303.15,
        HUMIDITY: 0.5,
    }
    low = on.reads[LOW_SIDE]
    # 2 % of 120 psi, which the usual gauges are off at most.
    assert low.value.radius == pytest.approx(0.02 * 120 * 6894.757, rel=1e-4)
    assert (low.step, low.engine, low.stands) == (1e3, "at a fast idle", False)
    assert on.reads[AMBIENT].stands


def test_before_a_gauge_is_read_there_is_what_is_known():
    on = on_gauges(gauge_tree.walk().go("30 C").state)
    assert set(on.reads) == {AMBIENT, HUMIDITY}
    assert on_gauges(gauge_tree.walk().state) is not None


def test_a_tree_without_gauges_has_none():
    assert on_gauges(Walk().state) is None
    elsewhere = [("  low-side:", "  one-side:"), ("  high-side:", "  other-side:")]
    elsewhere += [("title: Read low-side", "title: One"), ("title: Read high-side", "title: Other")]
    text = gauge_tree.text(*elsewhere)
    text = text.replace("go: low-side", "go: one-side").replace("go: high-side", "go: other-side")
    assert on_gauges(Walk(tree_from_bytes(text.encode(), "t").document, None).state) is None


def test_the_last_answer_that_stands_counts():
    walk = gauge_tree.walk().go("30 C", "193 kPa", "1448 kPa")
    walk.change("low-side", "150 kPa")
    assert values(walk)[LOW_SIDE] == 150e3
    walk.back()
    assert values(walk).keys() == {LOW_SIDE, HIGH_SIDE, AMBIENT, HUMIDITY}
    assert values(walk)[LOW_SIDE] == 193e3


def test_of_two_steps_with_one_name_the_later_answer_counts():
    walk = gauge_tree.walk(
        ("title: Read discharge-pipe", "title: Read it again\n    as: suction-pipe"),
    ).go(*gauge_tree.READ)
    assert values(walk)[SUCTION] == 353.15
    assert values(walk)[DISCHARGE] == 353.15


def test_a_skipped_step_gives_nothing():
    walk = gauge_tree.walk().go("30 C")
    walk.skip("no hose")
    assert LOW_SIDE not in values(walk)


def test_what_cannot_be_gives_nothing():
    walk = gauge_tree.walk().go("30 C")
    walk.answer("5000 kPa", confirmed=True)
    assert LOW_SIDE not in values(walk)


def test_another_quantity_gives_nothing():
    low = "title: Read low-side\n    quantity: "
    walk = gauge_tree.walk((f"{low}gauge-pressure", f"{low}pressure-difference"))
    assert LOW_SIDE not in values(walk.go("30 C", "193 kPa"))


@pytest.mark.parametrize(
    ("facts", "why"),
    [("{}", "the refrigerant is not told"), ("{refrigerant: swamp gas}", "“swamp gas” is no")],
)
def test_a_refrigerant_that_is_not_known_says_why(facts, why):
    sheet = gauge_tree.SHEET.replace("{refrigerant: R-134a}", facts)
    on = on_gauges(gauge_tree.walk(sheet=sheet).state)
    assert on.refrigerant is None
    assert why in on.why_no_refrigerant


def test_where_no_car_can_be_the_altitude_is_not_known():
    sheet = gauge_tree.SHEET.replace("300 m", "30000 m")
    assert on_gauges(gauge_tree.walk(sheet=sheet).state).altitude is None


def test_how_far_apart_the_readings_were_taken():
    walk = gauge_tree.walk().go("30 C")
    walk.clock.move(90)
    walk.go("193 kPa")
    walk.clock.move(12)
    walk.go("1448 kPa")
    assert on_gauges(walk.state).minutes_apart == pytest.approx(12)


def test_at_rest_it_is_known_that_the_compressor_stood():
    low = (
        "title: Read low-side\n    quantity: gauge-pressure\n    with: gauges\n"
        "    at: where it is\n    set-up: {key: run, engine: "
    )
    walk = gauge_tree.walk((f"{low}fast-idle", f"{low}stopped"))
    assert on_gauges(walk.go("30 C", "500 kPa").state).reads[LOW_SIDE].stands
