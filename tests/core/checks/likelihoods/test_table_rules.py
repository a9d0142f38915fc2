"""Every check of tables finds what it is there for, in its place, and nothing else."""

import shutil
import sys
from pathlib import Path

import pytest
from builders import LAMP, lamp
from likelihood_cases import TABLES

from faulttree.core.checks.likelihoods import ALONE, WITH_TREE
from faulttree.files.documents import DocumentError, check_file, load_likelihoods

RULES = [*ALONE, *WITH_TREE]
TABLE = Path(__file__).parents[3] / "data" / "likelihoods" / "lamp.yaml"


def _written(folder: Path, *changes: tuple[str, str]) -> Path:
    """The example beside its tree, with pieces replaced; each must be there once."""
    shutil.copy(LAMP / "tree.yaml", folder)
    text = TABLE.read_text("utf-8")
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} is there {text.count(old)} times"
        text = text.replace(old, new)
    path = folder / "likelihoods.yaml"
    path.write_text(text, "utf-8")
    return path


def test_the_sound_example_has_no_finding(tmp_path):
    assert check_file(_written(tmp_path)).problems == ()


@pytest.mark.parametrize("case", TABLES, ids=lambda c: f"{c.check}: {c.new[:40]}")
def test_a_broken_table_is_found_broken_once_and_in_its_place(case, tmp_path):
    changes = [(case.old, case.new)]
    if case.check in ("untold-suspect", "suspect-name"):
        changes += _also(case.check)
    report = check_file(_written(tmp_path, *changes))
    assert [(p.check, p.severity) for p in report.problems] == [(case.check, case.severity)]
    (problem,) = report.problems
    line = report.text.split("\n")[problem.line - 1]
    assert line[problem.column - 1 :].startswith(case.found)
    assert problem.help, "says how to mend it"


def _also(check: str) -> list[tuple[str, str]]:
    """Rows of the suspect that is no longer one."""
    if check == "untold-suspect":
        return [("    ground: {stays dark: 40 %, glows dim: 60 %}\n", "")]
    return [("    fuse: {one lights: 96 %}\n", ""), ("    fuse: {no feed: 98 %}\n", "")]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.__module__)
def test_every_check_that_a_rule_names_in_its_first_line_has_a_case(rule):
    first_line = str(sys.modules[rule.__module__].__doc__).split("\n")[0]
    checks = first_line.partition(":")[0].split(", ")
    assert set(checks) <= {case.check for case in TABLES}


def test_a_table_is_loaded_beside_its_tree_and_refused_where_it_does_not_fit(tmp_path):
    assert load_likelihoods(TABLE, lamp()).document.tree == "lamp"
    broken = _written(tmp_path, ("  fuse-look:", "  fuse-loook:"))
    with pytest.raises(DocumentError):
        load_likelihoods(broken, lamp())
    assert load_likelihoods(broken).document.tree == "lamp", "by itself it is sound"
