"""The one value for a finding."""

import dataclasses

import pytest

from faulttree.core.problem import FileProblems, Place, Problem, Severity, has_errors, in_order


def problem(line: int = 1, column: int = 1, severity: Severity = "error") -> Problem:
    return Problem("band-gap", severity, "no band takes 12 V", line, column)


def test_a_problem_marks_one_character_and_has_no_help_unless_told() -> None:
    found = problem()
    assert (found.help, found.length, found.also) == ("", 1, ())


def test_a_problem_cannot_be_changed() -> None:
    with pytest.raises(dataclasses.FrozenInstanceError):
        problem().line = 2  # type: ignore[misc]


def test_equal_problems_are_equal_and_can_stand_in_a_set() -> None:
    place = Place(1, 1, "first here")
    first = Problem("duplicate-key", "error", "again", 2, 1, also=(place,))
    second = Problem("duplicate-key", "error", "again", 2, 1, also=(place,))
    assert {first, second} == {first}


@pytest.mark.parametrize("check", ["", "Band-gap", "band_gap", "band gap", "-gap", "gap-", "a--b"])
def test_the_id_of_a_check_is_kebab_case(check: str) -> None:
    with pytest.raises(ValueError, match="kebab-case"):
        Problem(check, "error", "wrong", 1, 1)


@pytest.mark.parametrize(("line", "column", "length"), [(-1, 1, 1), (1, -1, 1), (1, 1, 0)])
def test_a_place_is_counted_from_one(line: int, column: int, length: int) -> None:
    with pytest.raises(ValueError, match="counted from 1"):
        Problem("band-gap", "error", "wrong", line, column, length=length)


def test_line_and_column_may_be_unknown() -> None:
    assert problem(0, 0).line == 0


@pytest.mark.parametrize(
    ("severities", "expected"),
    [((), False), (("warning",), False), (("warning", "error"), True)],
)
def test_only_errors_count_as_errors(severities: tuple[Severity, ...], expected: bool) -> None:
    problems = tuple(problem(severity=severity) for severity in severities)
    assert has_errors(problems) is expected
    assert FileProblems("trees/x/tree.yaml", "a: 1\n", problems).has_errors is expected


def test_problems_are_ordered_by_line_then_column() -> None:
    later, sooner, beside = problem(2, 1), problem(1, 2), problem(1, 1)
    assert in_order([later, sooner, beside]) == (beside, sooner, later)
