"""Suspects of a case by its author's table: for a tree that has no circuit model."""

import json
import shutil
from pathlib import Path

import pytest
from builders import LAMP, Clock, answered

from faulttree.beginning import Beginning
from faulttree.case_bench.why_not import CannotTellError
from faulttree.cli.main import main
from faulttree.core.walk.events import Complaint
from faulttree.files import cases
from faulttree.files.opening import open_tree
from faulttree.files.places import cases_folder
from faulttree.render.suspects_here import CIRCUIT, entries
from faulttree.render.suspects_more import more
from faulttree.session import Session

TABLE = LAMP.parent / "likelihoods" / "lamp.yaml"


@pytest.fixture
def session(tmp_path: Path) -> Session:
    folder = Path(shutil.copytree(LAMP, tmp_path / "lamp"))
    shutil.copy(TABLE, folder / "how-often.yaml")
    opened = open_tree(str(folder / "tree.yaml"))
    start = Beginning(opened.tree, opened.vehicle, circuit=opened.circuit)
    begun = Session.begin(cases_folder(), start, Clock())
    begun.set_complaint(Complaint.PRESENT)
    return answered(begun, "12.60", "glows dim")


def test_a_dim_lamp_speaks_for_ground_and_switch_by_bayes(session):
    """A dim lamp is in the table 60 % of bad grounds and 40 % of worn switches, of equal weight.

    Both come and go, with chances of 50 and 40 %: the more that readings say of that, the nearer
    the odds come to 60 x 50 against 40 x 40.
    """
    suspected = session.circuit.suspects.after(session.state)
    odds = {part.name: part.share.now for part in suspected.parts}
    ground, switch = odds["earth wire of the reversing lamp"], odds["reversing switch"]
    assert 60 / 40 < ground / switch < (60 * 50) / (40 * 40)
    assert ground + switch > 0.8


def test_they_are_kept_while_the_readings_stay(session):
    suspects = session.circuit.suspects
    assert suspects.known(session.state) is None
    suspected = suspects.after(session.state)
    assert suspects.known(session.state) is suspected
    assert suspects.known(answered(session, "11.6").state) is None


def test_nothing_is_drawn_along_a_circuit(session):
    suspected = session.circuit.suspects.after(session.state)
    assert CIRCUIT not in [row.name for row in entries(suspected)]
    for row in entries(suspected):
        title, lines = more(session.state, suspected, row.name)
        assert title
        assert lines
        assert "circuit" not in " ".join(line.text for line in lines)


def test_the_report_says_what_the_odds_rest_on(session):
    text = "\n".join(session.circuit.report_lines(session.state))
    assert "Worked out from the table of likelihoods" in text
    assert "circuit model" not in text
    data = session.circuit.suspects.report_data(session.state)
    assert data is not None
    assert data["parts"][0]["part"] == "earth wire of the reversing lamp"


def test_a_table_that_was_spoilt_since_says_so(session):
    (session.folder / cases.LIKELIHOODS).write_text("format: likelihoods/1\n", "utf-8")
    with pytest.raises(CannotTellError, match="cannot be used"):
        session.circuit.suspects.after(session.state)


def test_the_command_line_reports_them(session, capsys):
    assert main(["report", session.id, "--json"]) == 0
    assert "earth wire of the reversing lamp" in json.dumps(json.loads(capsys.readouterr().out))
