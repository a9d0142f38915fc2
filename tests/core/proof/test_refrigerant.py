"""Bands that go by refrigerant and altitude, as a proof judges them."""

import pytest
import superheat_tree

from faulttree.core.expression_values import REFRIGERANT_WORD
from faulttree.core.proof.judged import Judge, Span
from faulttree.core.proof.set_up import values_of
from faulttree.core.uncertain import exactly
from faulttree.core.units import PSI_PA
from faulttree.core.usual_instruments import one_per_class
from faulttree.files.documents import tree_from_bytes

MORE = "facts: {refrigerant: R-134a}\nvalues: {altitude: 500 m}\n"


def judge_of(more=MORE, tree=None):
    walked = tree or superheat_tree.tree()
    values = values_of(walked, superheat_tree.sheet(more))
    return Judge(walked, values, one_per_class(()))


def test_the_vehicle_sheet_tells_what_functions_go_by():
    tree = superheat_tree.tree()
    assert values_of(tree, superheat_tree.sheet(MORE)) == {
        "altitude": exactly(500.0),
        REFRIGERANT_WORD: "R-134a",
    }
    assert values_of(tree, superheat_tree.sheet()) == {}
    assert values_of(tree, None) == {}


def test_a_sum_and_edges_are_worked_out_for_the_car_of_the_sheet():
    """R-134a at 30 psig and 500 m boils at 33.59 °F: CoolProp 8.0.0, ASHRAE atmosphere."""
    judge = judge_of()
    pipe = exactly((50 + 459.67) / 1.8)
    values = {**judge.vehicle, "low-side": exactly(30 * PSI_PA), "suction-pipe": pipe}
    assert judge.worked_out("superheat", values).value.value * 1.8 == pytest.approx(16.41, abs=0.1)
    judged = judge.judge("suction-pipe", Span(pipe, pipe), values)
    assert judged.edges[0].value * 1.8 - 459.67 == pytest.approx(33.59 - 5.4, abs=0.1)
    assert judged.bands == (1,)


@pytest.mark.parametrize("more", ["", MORE.replace("R-134a", "R-410A")])
def test_a_car_of_unknown_refrigerant_is_not_judged(more):
    judge = judge_of(more)
    pipe = exactly(280.0)
    judged = judge.judge("suction-pipe", Span(pipe, pipe), {**judge.vehicle, "low-side": pipe})
    assert judged.bands == ()
    assert "known are R-134a, R-12, R-1234yf, R-22" in judged.trouble


def test_an_edge_without_names_is_still_one_of_the_car():
    """R-134a at 32 °F reads 27.772 psig at sea level: CoolProp 8.0.0."""
    change = ("least-low-side(ambient), means", "saturation-pressure(32 F), means")
    tree = tree_from_bytes(superheat_tree.text(change).encode(), "superheat").document
    judge = judge_of(MORE.replace("500 m", "0 m"), tree)
    low = exactly(200e3)
    values = {**judge.vehicle, "ambient": exactly(305.0)}
    edges = judge.judge("low-side", Span(low, low), values).edges
    assert edges[0].value / PSI_PA == pytest.approx(27.772, rel=2e-3)
