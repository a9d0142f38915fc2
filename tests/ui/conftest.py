"""Two trees to choose from, whatever the program ships."""

from pathlib import Path

import pytest
from builders import LAMP, lamp_text

from faulttree.files import places

HORN = (
    ("id: lamp", "id: horn"),
    ("title: Reversing lamp stays dark", "title: Horn stays silent"),
    ("  - The reversing lamp does not light.\n", "  - The horn is silent in the cold.\n"),
    ("  - The white light at the back is out on some days.\n", ""),
)
"""What makes the example tree another one."""


@pytest.fixture
def library(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of shipped trees: the lamp with its sheet, and a horn without one."""
    folder = tmp_path / "shipped"
    for name in ("lamp", "horn"):
        (folder / name).mkdir(parents=True)
    for file in ("tree.yaml", "vehicle.yaml"):
        (folder / "lamp" / file).write_bytes((LAMP / file).read_bytes())
    (folder / "horn" / "tree.yaml").write_text(lamp_text(*HORN), "utf-8")
    monkeypatch.setattr(places, "shipped_trees", lambda: folder)
    return folder
