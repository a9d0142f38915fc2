"""Every check finds what it is there for, on its line, and nothing else."""

import sys

import pytest
from builders import LAMP, lamp, lamp_text
from check_cases import SHEETS, TREES

from faulttree.core.checks import RULES, check_tree
from faulttree.files.documents import check_bytes


def _only_problem(report, case):
    found = [(p.check, p.severity, _line(report, p)) for p in report.problems]
    assert found == [(case.check, case.severity, case.line)]
    return report.problems[0]


def _line(report, problem):
    return report.text.split("\n")[problem.line - 1].strip()


def test_the_sound_tree_has_no_finding():
    assert check_tree(lamp()) == []


@pytest.mark.parametrize("case", TREES, ids=lambda c: f"{c.check}: {c.line[:30]}")
def test_a_broken_tree_is_found_broken_once_and_in_its_place(case):
    problem = _only_problem(check_bytes(lamp_text(*case.changes).encode(), "tree.yaml"), case)
    assert problem.help, "says how to mend it"
    assert problem.column > 0


@pytest.mark.parametrize("case", SHEETS, ids=lambda c: f"{c.check}: {c.line[:30]}")
def test_a_broken_sheet_is_found_broken_once_and_in_its_place(case):
    text = (LAMP / "vehicle.yaml").read_text("utf-8")
    for old, new in case.changes:
        assert text.count(old) == 1
        text = text.replace(old, new)
    trees = (lamp(),) if case.line.endswith(" V") else ()
    assert _only_problem(check_bytes(text.encode(), "vehicle.yaml", trees), case).help


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.__module__)
def test_every_check_that_a_rule_names_in_its_first_line_has_a_case(rule):
    first_line = str(sys.modules[rule.__module__].__doc__).split("\n")[0]
    checks = first_line.partition(":")[0].split(", ")
    assert set(checks) <= {case.check for case in TREES}


def test_everything_that_is_wrong_is_told_at_once():
    shape = ("key: out, engine: stopped", "key: out, engine: off")
    key = ("    how: Stand behind", "    hwo: Stand behind")
    report = check_bytes(lamp_text(shape, key).encode(), "tree.yaml")
    assert [p.check for p in report.problems] == ["wrong-value", "unknown-key"]
    rules = [("cannot: {go: remove-bypass}", "cannot: {go: x}"), ("below: 0.2 V", "below: 0.2 A")]
    report = check_bytes(lamp_text(*rules).encode(), "tree.yaml")
    assert [p.check for p in report.problems] == ["unknown-step", "expression"]
