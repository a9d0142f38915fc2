"""Suspects line by line, and in the report of a case from its folder alone."""

import io
import json
from collections.abc import Callable
from pathlib import Path

import pytest
from builders import answered, lamp_case
from lamp_circuit import at_feed

from faulttree.cli.main import main
from faulttree.cli.plain import PlainWalk
from faulttree.core.walk.asks import Ask
from faulttree.files import cases
from faulttree.session import Session


def _said(session: Session, *lines: str) -> str:
    out = io.StringIO()
    typed = iter(lines)

    def source(_ask: Ask, _question: str) -> str | None:
        return next(typed, None)

    PlainWalk(session, source, out).run()
    return out.getvalue()


@pytest.fixture
def session(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Session:
    monkeypatch.setenv("FAULTTREE_DATA", str(tmp_path))
    return answered(at_feed(tmp_path), "11.6")


def test_the_word_lists_them_and_a_name_tells_why(session):
    said = _said(session, "suspects", "suspects 1", "suspects circuit", "suspects lamp.open")
    assert "Suspects: after 3 readings." in said
    assert " 1  98 %  reversing switch (up: 19 → 98 %)" in said or " 1  " in said
    assert "none of these: a fault not in the model, or none" in said
    assert "Suspect: reversing switch." in said
    assert "Speaks for it: Feed at the lamp, lamp in place, 11.6 V: " in said
    assert "\no output terminal of the reversing switch\n" in said
    assert "Suspect: reversing lamp." in said
    assert all(len(line) <= 78 for line in said.splitlines() if not line.startswith("complaint"))


def test_it_follows_the_readings(session):
    said = _said(session, "back", "suspects")
    assert "Suspects: after 2 readings." in said


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("suspects horn", "No part or fault is called like horn; suspects alone lists them."),
        ("suspects e", "Several parts are called like e: "),
    ],
)
def test_a_name_that_fits_none_or_several_is_told(session, line, words):
    assert words in _said(session, line)


def test_why_there_is_nothing_to_tell_is_one_sentence(session, tmp_path):
    (session.folder / cases.BENCH).unlink()
    assert "This case has no bench.yaml in its folder, so suspects" in " ".join(
        _said(session, "suspects").split()
    )
    assert "This tree has no circuit model" in _said(lamp_case(tmp_path / "other"), "suspects")


def test_help_names_the_word(session):
    assert "suspects NAME" in _said(session, "help")


def _report(session: Session, capsys: pytest.CaptureFixture[str], *options: str) -> str:
    capsys.readouterr()
    assert main(["report", session.id, *options]) == 0
    return capsys.readouterr().out


Damage = Callable[[Path], object]


def test_the_report_tells_what_the_readings_say_and_comes_out_the_same(session, capsys):
    first = _report(session, capsys)
    assert "## What the readings say" in first
    assert "%: reversing switch (contact main: added series resistance)" in first
    assert _report(session, capsys) == first
    say = session.circuit.report_lines(session.state)
    assert all(line in first for line in say if line.startswith("- ") and len(line) < 70)
    assert "## What the readings say" in _said(session, "report")


@pytest.mark.parametrize(
    ("damage", "words"),
    [
        (lambda folder: (folder / cases.BENCH).unlink(), "has no bench.yaml in its folder"),
        (
            lambda folder: (folder / cases.CIRCUIT).write_text("format: circuit/1\n"),
            "circuit.yaml in the folder of this case cannot be used",
        ),
    ],
)
def test_a_report_does_not_fail_over_a_damaged_circuit(session, capsys, damage: Damage, words):
    whole = _report(session, capsys)
    damage(session.folder)
    text = _report(session, capsys)
    assert words in " ".join(text.split())
    assert (
        text.partition("## What the readings say")[0]
        == (whole.partition("## What the readings say")[0])
    )
    data = json.loads(_report(session, capsys, "--json"))
    assert words in data["suspects"]["cannot-tell"]


def test_as_data_the_report_has_the_odds(session, capsys):
    data = json.loads(_report(session, capsys, "--json"))["suspects"]
    assert data["parts"][0]["part"] == "reversing switch"
    assert len(data["readings"]) == 3


def test_a_report_of_a_tree_without_a_circuit_has_no_such_section(tmp_path, capsys, monkeypatch):
    monkeypatch.setenv("FAULTTREE_DATA", str(tmp_path))
    session = answered(lamp_case(tmp_path / "cases"), "12.60")
    assert "What the readings say" not in _report(session, capsys)
    assert "suspects" not in json.loads(_report(session, capsys, "--json"))
