"""The program as it is started from a shell, with places of its own."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

Run = Callable[..., subprocess.CompletedProcess[str]]


@pytest.fixture
def environment(tmp_path: Path) -> dict[str, str]:
    """The environment of a run: no place outside the test's own folder is touched."""
    own = {
        "FAULTTREE_DATA": str(tmp_path / "data"),
        "FAULTTREE_SETTINGS": str(tmp_path / "settings"),
        "PYTHONUTF8": "1",
        "TERM": "dumb",
        "TZ": "UTC",
    }
    return {**os.environ, **own}


@pytest.fixture
def run(environment: dict[str, str], tmp_path: Path) -> Run:
    """Run the program to its end."""

    def start(
        *arguments: str | bytes | Path, typed: str | bytes = "", **more: str
    ) -> subprocess.CompletedProcess[str]:
        data = typed if isinstance(typed, bytes) else typed.encode()
        done = subprocess.run(
            [sys.executable, "-m", "faulttree", *arguments],
            input=data,
            capture_output=True,
            cwd=tmp_path,
            env={**environment, **more},
            timeout=60,
            check=False,
        )
        out, err = done.stdout.decode("utf-8", "replace"), done.stderr.decode("utf-8", "replace")
        assert "Traceback" not in out + err
        return subprocess.CompletedProcess(done.args, done.returncode, out, err)

    return start
