"""Cars that read the same in every test are of one kind; an open reading makes two."""

import pytest

from faulttree.core.order import problem as given
from faulttree.core.order.kinds import ANY, KINDS_AT_MOST, kinds_of
from faulttree.core.order.plan import Asked, End
from faulttree.core.order.planner import Planner


def _suspects(*weights: float) -> tuple[given.Suspect, ...]:
    return tuple(given.Suspect(c, c, w) for c, w in zip("abcdef", weights, strict=False))


def test_suspects_that_read_alike_are_one_kind() -> None:
    test = given.Test("t", 1, (("low",), ("low",), ("high",)))
    kinds = kinds_of(given.Problem(_suspects(1, 2, 5), (test,))).kinds
    assert [(k.shares, k.weight) for k in kinds] == [
        ({"a": 1, "b": 1}, pytest.approx(3 / 8)),
        ({"c": 1}, pytest.approx(5 / 8)),
    ]
    assert kinds[0].finds == {"a", "b"}


def test_a_suspect_that_may_read_either_way_is_of_two_kinds_half_each() -> None:
    test = given.Test("t", 1, (("low", "high"), ("low",), ("high",)))
    kinds = kinds_of(given.Problem(_suspects(4, 2, 2), (test,))).kinds
    assert [k.shares for k in kinds] == [{"a": 0.5, "b": 1}, {"a": 0.5, "c": 1}]
    assert [k.weight for k in kinds] == [pytest.approx(0.5)] * 2


def test_a_plan_ends_where_no_test_can_rule_out_more() -> None:
    """A dim lamp and a weak battery read alike in one of two ways; then both are left."""
    either = given.Test("t", 2, (("low", "high"), ("low",)))
    found = Planner(given.Problem(_suspects(1, 1), (either,))).best()
    assert isinstance(found.plan, Asked)
    assert found.plan.go == {"low": End({"a": 0.5, "b": 1}), "high": End({"a": 0.5})}
    assert found.expected.most == pytest.approx(2)


def test_sizes_of_a_fault_and_faults_of_a_part_need_not_be_told_apart() -> None:
    suspects = (
        given.Suspect("a-mild", "a", 1),
        given.Suspect("a-severe", "a", 1),
        given.Suspect("b", "b", 1, part="pump"),
        given.Suspect("c", "c", 1, part="pump"),
    )
    size = given.Test("size", 1, (("low",), ("high",), ("low",), ("high",)))
    which = given.Test("which", 3, (("no",), ("no",), ("yes",), ("yes",)))
    found = Planner(given.Problem(suspects, (size, which))).best()
    assert isinstance(found.plan, Asked)
    assert found.plan.test == "which"
    assert found.expected.most == pytest.approx(3)


def test_a_test_that_anything_may_come_of_is_never_in_a_plan() -> None:
    noise = given.Test("noise", 0.1, (("hum", "none"), ("hum", "none")))
    tell = given.Test("tell", 4, (("no",), ("yes",)))
    problem = given.Problem(_suspects(1, 1), (noise, tell))
    assert {kind.shows[0] for kind in kinds_of(problem).kinds} == {ANY}
    assert Planner(problem).best().expected.most == pytest.approx(4)


def test_tests_that_are_open_for_nearly_all_are_left_out_where_ways_are_too_many() -> None:
    suspects = tuple(given.Suspect(f"s{n}", f"f{n}", 1) for n in range(4))
    vague = [given.Test(f"vague-{n}", 1, (("yes", "no"),) * 3 + (("no",),)) for n in range(12)]
    clear = given.Test("clear", 5, (("1",), ("2",), ("3",), ("4",)))
    planner = Planner(given.Problem(suspects, (*vague, clear)))
    found = planner.best()
    assert found.left_out
    assert set(found.left_out) <= {test.name for test in vague}
    assert len(kinds_of(given.Problem(suspects, (*vague, clear))).kinds) <= KINDS_AT_MOST
    assert found.expected.is_proven


def test_too_many_suspects_are_refused_in_a_sentence() -> None:
    count = KINDS_AT_MOST + 1
    suspects = tuple(given.Suspect(f"s{n}", f"f{n}", 1) for n in range(count))
    test = given.Test("t", 1, tuple((str(n),) for n in range(count)))
    with pytest.raises(given.CannotOrder, match="more than 500 different ways"):
        kinds_of(given.Problem(suspects, (test,)))
