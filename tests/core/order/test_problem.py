"""A problem that contradicts itself is refused in one sentence."""

from dataclasses import replace

import pytest

from faulttree.core.order import problem as given
from faulttree.core.order.following import SoFar
from faulttree.core.order.plan import End
from faulttree.core.order.planner import Planner

SUSPECT = given.Suspect("a", "a", 1)
TEST = given.Test("t", 1, (("low",),))
KEY = given.SetUp("key", {"out": 0, "run": 1}, "out")


@pytest.mark.parametrize(
    ("suspects", "tests", "set_ups", "sentence"),
    [
        ((), (), (), "There is nothing to tell apart: give at least one suspect."),
        ((SUSPECT, SUSPECT), (), (), "Two have the name a: give every suspect its own."),
        ((SUSPECT,), (TEST, TEST), (), "Two have the name t: give every test its own."),
        ((replace(SUSPECT, weight=-1),), (), (), "Suspect a weighs -1: give 0 or more."),
        (
            (replace(SUSPECT, weight=0),),
            (),
            (),
            "No suspect has a weight: give at least one more than 0.",
        ),
        (
            (SUSPECT,),
            (replace(TEST, minutes=float("nan")),),
            (),
            "Test t takes nan minutes: give 0 or more.",
        ),
        (
            (SUSPECT,),
            (replace(TEST, shows=((),)),),
            (),
            "Test t: say for each of the 1 suspects what it shows.",
        ),
        (
            (SUSPECT,),
            (replace(TEST, needs={"key": "start"}),),
            (KEY,),
            "Test t needs key start, which no set-up has.",
        ),
        (
            (SUSPECT,),
            (replace(TEST, wrong=1),),
            (),
            "Test t is wrong with probability 1: give 0 or more, below 1.",
        ),
        (
            (SUSPECT,),
            (replace(TEST, wrong=0.1, ends=frozenset({"low"})),),
            (),
            "Test t ends the search and may be wrong: it cannot do both.",
        ),
        (
            (SUSPECT,),
            (),
            (replace(KEY, at_first="start"),),
            "Set-up key begins as start, which is none of its states.",
        ),
        (
            (SUSPECT,),
            (),
            (replace(KEY, minutes={"out": -1}),),
            "Set-up key, out, takes -1 minutes: give 0 or more.",
        ),
    ],
)
def test_the_sentence_says_what_is_wrong(suspects, tests, set_ups, sentence) -> None:
    with pytest.raises(given.CannotOrder) as refused:
        given.Problem(suspects, tests, set_ups)
    assert str(refused.value) == sentence


def test_tests_that_may_be_wrong_are_sent_where_they_belong() -> None:
    problem = given.Problem((SUSPECT,), (replace(TEST, wrong=0.1),))
    with pytest.raises(given.CannotOrder, match="Test t may be wrong"):
        Planner(problem)


def test_one_suspect_needs_no_test() -> None:
    found = Planner(given.Problem((SUSPECT,), (TEST,))).best()
    assert found.expected.most == 0
    assert found.expected.is_proven
    assert found.expected.gap == 0


def test_without_tests_all_suspects_are_left() -> None:
    other = replace(SUSPECT, id="b", fault="b")
    planner = Planner(given.Problem((SUSPECT, other), ()))
    assert planner.best().plan == End({"a": 1, "b": 1})
    assert planner.next_tests(SoFar()).options == ()


def test_suspects_that_weigh_nothing_are_told_apart_by_the_cheapest_test() -> None:
    """They cost nothing on average; the plan must hold for them all the same."""
    suspects = tuple(given.Suspect(c, c, w) for c, w in (("a", 1), ("b", 0), ("c", 0)))
    tests = (
        given.Test("first", 1, (("1",), ("0",), ("0",))),
        given.Test("last and dear", 40, (("0",), ("0",), ("1",))),
        given.Test("last and quick", 2, (("0",), ("0",), ("1",))),
    )
    found = Planner(given.Problem(suspects, tests)).best()
    assert found.expected.most == pytest.approx(1)
    assert found.spent.means == {"a": 1, "b": 3, "c": 3}
