"""The best order as text and as data."""

from dataclasses import replace
from pathlib import Path

import pytest
from golden import assert_golden
from orders import SHARED, cargo_order

from faulttree.core.order.plan import Asked, End, Range
from faulttree.render import order_outline
from faulttree.render.order_json import order_json
from faulttree.render.order_result import asked, ends
from faulttree.render.order_text import order_text
from faulttree.render.page import WIDTH

GOLDEN = Path(__file__).parent / "golden"


def _told(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize(("name", "changes"), [("sound", ()), ("shared", SHARED)])
def test_the_whole_text_looks_as_it_should(name, changes):
    assert_golden(GOLDEN / f"order-{name}.txt", order_text(cargo_order(changes)))


@pytest.mark.parametrize("changes", [(), SHARED])
def test_no_line_is_wider_than_a_terminal(changes):
    text = order_text(cargo_order(changes, only_ascii=True))
    assert max(map(len, text.splitlines())) <= WIDTH
    assert text.isascii()
    assert not any(line.endswith(" ") for line in text.splitlines())


def test_a_plan_that_is_not_proven_says_how_far_it_may_be_from_the_best():
    result = cargo_order()
    best = replace(result.compared.best, expected=Range(5.0, 6.0))
    unproven = replace(result, compared=replace(result.compared, best=best))
    told = _told(order_text(unproven))
    assert "no order takes less than 5.0 min" in told
    assert "1.0 min (20.0 % of it) more than the best" in told
    assert order_json(unproven)["best"] | {"first": "", "worst": 0} == {
        "first": "",
        "expected": 6.0,
        "worst": 0,
        "proven": False,
        "no-order-below": 5.0,
        "gap": pytest.approx(0.2),
        "ends-wrong": None,
        "with-wrong-ends": None,
    }


def test_a_long_outline_is_cut_with_a_count(monkeypatch):
    monkeypatch.setattr(order_outline, "_MOST", 2)
    told = _told(order_text(cargo_order()))
    assert "dead, 41.3 %: [...] 2 tests more, between 4 parts" in told
    assert "4 tests that few cars come to stand as [...]" in told


def test_where_nothing_is_to_be_told_apart_no_test_is_needed():
    result = cargo_order()
    names = [s for end in ends(result.compared.best.plan) for s in end.suspects]
    best = replace(result.compared.best, plan=End(dict.fromkeys(names, 1.0)), expected=Range(0, 0))
    idle = replace(result, compared=replace(result.compared, best=best))
    assert "No test is needed." in order_text(idle)
    assert order_json(idle)["ratio"] is None


def test_the_data_holds_the_whole_order():
    result = cargo_order()
    data = order_json(result)
    steps, verdicts = [], set()

    def visit(at):
        if "step" in at:
            steps.append(at["step"])
            assert sum(each["share"] for each in at["go"]) == pytest.approx(at["share"])
            for each in at["go"]:
                visit(each)
        else:
            verdicts.add(at["verdict"])

    visit(data["plan"])
    assert data["plan"]["share"] == pytest.approx(1.0)
    assert steps == [each.test for each in asked(result.compared.best.plan)]
    faults = {"fuse-blown", "switch-bad", "plug-bad", "ground-bad", "bulb-burnt"}
    assert verdicts == {*faults, "no-fault"}
    assert data["left-out"]["tell-nothing-apart"] == ["battery-rest"]


def test_minutes_of_the_outline_are_those_of_its_ways():
    """The mean over the ends of what lies on the way to each is the expected time."""
    result = cargo_order(SHARED)

    def mean(plan, spent):
        if not isinstance(plan, Asked):
            return result.share(plan) * spent
        return sum(mean(after, spent + plan.minutes) for after in plan.go.values())

    best = result.compared.best
    assert mean(best.plan, 0.0) == pytest.approx(best.expected.most)
