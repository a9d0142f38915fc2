"""Golden files: a text as it is wanted, looked at by a person once, kept beside its test."""

import os
from pathlib import Path


def assert_golden(file: Path, text: str) -> None:
    """Compare with the file; UPDATE_GOLDEN=1 writes it anew, to be looked at before it is kept."""
    if os.environ.get("UPDATE_GOLDEN"):
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, "utf-8")
    assert text == file.read_text("utf-8")
