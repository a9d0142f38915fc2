"""The example tree with its circuit model and bench sheet, and cases of it."""

import shutil
from pathlib import Path

from builders import LAMP, Clock, answered, lamp_text

from faulttree.beginning import Beginning
from faulttree.core.walk.events import Complaint
from faulttree.files import cases
from faulttree.files.opening import open_tree
from faulttree.session import Session

CIRCUIT = Path(__file__).parent / "data" / "expected"
NAMES_ITS_CIRCUIT = ("start: battery-rest", "circuit: reversing-lamp\nstart: battery-rest")


def lamp_folder(folder: Path) -> Path:
    """The file of the example tree in a folder, with vehicle sheet, circuit and bench sheet."""
    folder.mkdir(parents=True, exist_ok=True)
    tree = folder / "tree.yaml"
    tree.write_text(lamp_text(NAMES_ITS_CIRCUIT), "utf-8")
    shutil.copy(LAMP / "vehicle.yaml", folder)
    for name in (cases.CIRCUIT, cases.BENCH):
        shutil.copy(CIRCUIT / name, folder)
    return tree


def begun(folder: Path, clock: Clock | None = None, **beginning: object) -> Session:
    """A case of the example tree with its circuit, begun as a person begins one."""
    opened = open_tree(str(lamp_folder(folder / "tree")))
    values = {"circuit": opened.circuit, **beginning}
    start = Beginning(opened.tree, opened.vehicle, **values)  # type: ignore[arg-type]
    return Session.begin(folder / "cases", start, clock or Clock())


def at_feed(folder: Path, battery: str = "12.60", **beginning: object) -> Session:
    """The same where it asks for the feed of the lamp, while the complaint shows."""
    session = begun(folder, **beginning)
    session.set_complaint(Complaint.PRESENT)
    return answered(session, battery, "glows dim")


def texts(session: Session) -> list[str]:
    """The expected readings of the step asked for, line by line."""
    lines = session.circuit.expected.lines(session.state, session.ask.step_id)
    return [f"{line.label}: {line.text}" if line.label else line.text for line in lines]
