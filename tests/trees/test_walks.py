"""The shipped trees, walked from a fault to its conclusion through the real command line.

One answers file is one car. Its name is the conclusion wanted, then what is special about it:
`relay-contacts--burnt.yaml`. What is typed wrong on purpose or cannot be done stands in the file.

Source of the readings: a resistive model of the circuit drawn at the head of each tree, solved by
Kirchhoff's laws with one fault put in, not taken from the tree's bands. Resistances of the sound
circuit: common practice, no source. What a person finds by eye and ear, and how a proof comes out,
follows from the fault put in.
"""

import io
import json
import re
from collections.abc import Iterator
from contextlib import redirect_stdout
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from faulttree.cli.main import main
from faulttree.core.tree import Conclude, Tree
from faulttree.files.answers import Answers, load_answers
from faulttree.files.documents import load_tree
from faulttree.render.markdown_text import words

HERE = Path(__file__).parent
FILES = sorted(HERE.glob("*/*.yaml"))
TREES = sorted({file.parent.name for file in FILES})
INTAKE = ("--words", "Some days it does not work.", "--technician", "R. Ode")
FAILED = "failed"


@dataclass(frozen=True, slots=True)
class Scenario:
    """One answers file and what it is there for."""

    file: Path
    typed: Answers

    @property
    def wanted(self) -> Conclude:
        """The conclusion in the file's name."""
        step = _tree(self.file.parent.name).steps[_conclusion(self.file)]
        assert isinstance(step, Conclude)
        return step

    @property
    def is_absent(self) -> bool:
        """True when the complaint does not show itself on the whole walk."""
        return self.typed.complaint == "absent" and not self.steps_with("complaint ")

    @property
    def is_too_close(self) -> bool:
        """True when a reading lies on an edge and has to be decided."""
        return self.file.stem.endswith("--too-close")

    def steps_with(self, beginning: str) -> list[str]:
        """The steps at which a line with this beginning is typed."""
        answers = self.typed.answers.items()
        return [step for step, lines in answers if any(x.startswith(beginning) for x in lines)]

    @property
    def failed_proofs(self) -> list[str]:
        """The conclusions whose proof is said to have failed."""
        return [step for step, lines in self.typed.answers.items() if FAILED in lines[1:]]


@cache
def _tree(name: str) -> Tree:
    return load_tree(HERE.parents[1] / "trees" / name / "tree.yaml").document


def _conclusion(file: Path) -> str:
    return file.stem.partition("--")[0]


def _scenarios(tree: str) -> Iterator[Scenario]:
    for file in FILES:
        if file.parent.name == tree:
            yield Scenario(file, load_answers(file))


def _printed(*argv: str) -> str:
    out = io.StringIO()
    with redirect_stdout(out):
        assert main(argv) == 0
    return out.getvalue()


def _has_decision(walk: dict[str, Any]) -> bool:
    return any(e["event"] in ("band-decided", "other-test-taken") for e in walk["record"])


def _steps_taken(walk: dict[str, Any], taken: str) -> list[str]:
    return [visit["step"] for visit in walk["path"] if visit["taken"] == taken]


@pytest.mark.parametrize("file", FILES, ids=lambda file: f"{file.parent.name}/{file.stem}")
def test_a_walk_comes_to_the_conclusion_its_fault_calls_for(file: Path) -> None:
    scenario = Scenario(file, load_answers(file))
    walk = json.loads(_printed("walk", file.parent.name, "--answers", str(file), "--json", *INTAKE))
    assert (walk["stands-at"], walk["stage"]) == (_conclusion(file), "closed")
    assert _steps_taken(walk, "cannot be done") == scenario.steps_with("skip ")
    assert _steps_taken(walk, "proof failed") == scenario.failed_proofs
    assert _steps_taken(walk, "implausible") == _steps_taken(walk, "none of these") == []
    assert not walk["still-fitted"]
    assert _has_decision(walk) == scenario.is_too_close
    _check_proof(walk, scenario.wanted)
    _check_report(_printed("report", walk["case"]), scenario)


def _check_proof(walk: dict[str, Any], wanted: Conclude) -> None:
    """A fault verdict is proved, repaired, and run in its wanted number of clean cycles."""
    done = walk["conclusion"]
    assert done["accepted"]
    if wanted.verify:
        assert done["proof"] == "held"
        assert done["repair"] in {repair.name for repair in wanted.repairs}
        assert done["clean-cycles"] == wanted.verify.cycles
    else:
        assert (done["proof"], done["repair"], done["clean-cycles"]) == (None, None, 0)


def _check_report(report: str, scenario: Scenario) -> None:
    """The report says what was found, and does not keep quiet about what was not tested."""
    told = " ".join(report.split())
    for piece in re.split(r"\{[a-z-]+\}", scenario.wanted.finding):
        assert words(piece).strip() in told
    for lines in scenario.typed.answers.values():
        for line in lines:
            assert not line.startswith("skip ") or words(line.removeprefix("skip ")) in told


@pytest.mark.parametrize("tree", TREES)
def test_each_tree_is_walked_to_enough_different_ends(tree: str) -> None:
    scenarios = list(_scenarios(tree))
    faults = {_conclusion(s.file) for s in scenarios if s.wanted.result == "fault"}
    assert len(scenarios) >= 8
    assert len(faults) >= 4


@pytest.mark.parametrize("tree", TREES)
def test_each_tree_is_walked_with_a_step_skipped_a_proof_failed_and_a_reading_too_close(
    tree: str,
) -> None:
    scenarios = list(_scenarios(tree))
    assert any(scenario.steps_with("skip ") for scenario in scenarios)
    assert any(scenario.failed_proofs for scenario in scenarios)
    assert any(scenario.is_too_close for scenario in scenarios)


@pytest.mark.parametrize("tree", TREES)
def test_no_walk_without_the_complaint_condemns_a_part_unsaid(tree: str) -> None:
    absent = [scenario for scenario in _scenarios(tree) if scenario.is_absent]
    assert absent
    for scenario in absent:
        name = _conclusion(scenario.file)
        was_asked = "yes" in scenario.typed.answers[name]
        assert was_asked == (scenario.wanted.result == "fault")
