"""Cases for the program to go on with, begun in its own places."""

from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from program import Program, Start, environment
from screens import walked


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Start]:
    """Start the program: arguments, then size and environment by name."""
    with ExitStack() as running:

        def begin(*arguments: str, size: tuple[int, int] = (80, 24), **env: str | None) -> Program:
            return running.enter_context(
                Program(list(arguments), environment(tmp_path, **env), size)
            )

        yield begin


@pytest.fixture
def case() -> str:
    """A case that stands at its second step, where an outcome is chosen."""
    return walked("12.60").id


@pytest.fixture
def at_reading() -> str:
    """A case that stands at a reading: the first step, with the complaint told."""
    return walked().id
