"""No test touches this machine's own cases and settings; random tests draw the same every time."""

from pathlib import Path

import pytest
from hypothesis import settings

settings.register_profile("the same every time", derandomize=True, deadline=None)
settings.load_profile("the same every time")


@pytest.fixture(autouse=True)
def _own_places(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FAULTTREE_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("FAULTTREE_SETTINGS", str(tmp_path / "settings"))
