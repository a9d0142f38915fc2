"""No test touches this machine's own cases and settings."""

from pathlib import Path

import pytest


@pytest.fixture(autouse=True)
def _own_places(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FAULTTREE_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("FAULTTREE_SETTINGS", str(tmp_path / "settings"))
