"""Every check of bench sheets finds what it is there for, in its place, and nothing else."""

import shutil
import sys
from pathlib import Path

import pytest
from bench_cases import BENCHES

from faulttree.core.checks.bench import ALONE, WITH_BOTH, WITH_CIRCUIT, WITH_TREE, unnamed
from faulttree.files.documents import check_file

EXAMPLE = Path(__file__).parents[3] / "data" / "bench"
TREES = Path(__file__).parents[4] / "trees"
FILES = ("tree", "circuit", "bench")
IN_SHIPPED = {"loop-limit"}
"""Tried on shipped trees, below, as the example has no refrigerant loop."""
RULES = [*ALONE, *WITH_TREE, *WITH_CIRCUIT, *WITH_BOTH, unnamed.check]


def _written(folder, changes=()):
    """The example in a folder, with pieces of it replaced; each must be there once."""
    for name in FILES:
        text = (EXAMPLE / f"{name}.yaml").read_text("utf-8")
        for file, old, new in changes:
            if file == name:
                assert text.count(old) == 1, f"{old!r} is there {text.count(old)} times"
                text = text.replace(old, new)
        (folder / f"{name}.yaml").write_text(text, "utf-8")
    return folder


def _checked(folder, name="bench"):
    return check_file(folder / f"{name}.yaml")


@pytest.mark.parametrize("name", FILES)
def test_the_sound_example_has_no_finding(name):
    assert _checked(EXAMPLE, name).problems == ()


@pytest.mark.parametrize("case", BENCHES, ids=lambda c: f"{c.check}: {c.changes[0][2][:40]}")
def test_a_broken_sheet_is_found_broken_once_and_in_its_place(case, tmp_path):
    report = _checked(_written(tmp_path, case.changes), case.file)
    assert [(p.check, p.severity) for p in report.problems] == [(case.check, case.severity)]
    (problem,) = report.problems
    line = report.text.split("\n")[problem.line - 1]
    assert line[problem.column - 1 :].startswith(case.found)
    assert problem.help, "says how to mend it"


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.__module__)
def test_every_check_that_a_rule_names_in_its_first_line_has_a_case(rule):
    first_line = str(sys.modules[rule.__module__].__doc__).split("\n")[0]
    checks = first_line.partition(":")[0].split(", ")
    assert set(checks) <= {case.check for case in BENCHES} | IN_SHIPPED


@pytest.mark.parametrize(
    ("old", "new", "found"),
    [
        ("weak: {ambient: 33 C,", "weak: {ambient: 95 C,", "95 C"),
        ("charging: {ambient: 39 C, humidity: 25 %}",
         "charging: {ambient: 39 C, humidity: 250 %}", "250 %"),
    ],
)  # fmt: skip
def test_a_day_that_no_car_sees_is_found_where_it_stands(old, new, found, tmp_path):
    """The loop of a shipped tree; the example has none."""
    folder = tmp_path / "warm"
    shutil.copytree(TREES / "ac-warm-at-idle", folder)
    text = (folder / "bench.yaml").read_text("utf-8")
    assert text.count(old) == 1
    (folder / "bench.yaml").write_text(text.replace(old, new), "utf-8")
    report = _checked(folder)
    assert [problem.check for problem in report.problems] == ["loop-limit"]
    problem = report.problems[0]
    assert report.text.split("\n")[problem.line - 1][problem.column - 1 :].startswith(found)
