"""The real program in a real pseudo-terminal, with a terminal emulator that shows what it draws."""

import contextlib
import os
import signal
import sys
import time
from collections.abc import Callable
from pathlib import Path
from types import TracebackType

import pexpect
import pyte

from faulttree.core.walk.state import WalkState
from faulttree.files import places
from faulttree.session import Session

PATIENCE_S = 20.0
"""How long a test waits for what must come [s]; the machine may be busy."""


def state_of(case_id: str) -> WalkState:
    """What is on disk of a case."""
    return Session.resume(places.cases_folder() / case_id).state


def environment(folder: Path, **changes: str | None) -> dict[str, str]:
    """A terminal's environment with its own places; None takes a variable out."""
    usual: dict[str, str | None] = {
        **os.environ,
        "FAULTTREE_DATA": str(folder / "data"),
        "FAULTTREE_SETTINGS": str(folder / "settings"),
        "TERM": "xterm-256color",
        "COLORTERM": "truecolor",
        "LANG": "C.UTF-8",
        "LC_ALL": None,
        "LC_CTYPE": None,
        "NO_COLOR": None,
    }
    return {name: value for name, value in (usual | changes).items() if value is not None}


class Program:
    """The program as a person sees it: what it draws, what is typed, how it ends."""

    def __init__(
        self,
        arguments: list[str],
        env: dict[str, str],
        size: tuple[int, int] = (80, 24),
        command: str = sys.executable,
    ) -> None:
        """`size` is columns and rows; `arguments` are those of faulttree."""
        columns, rows = size
        self.screen = pyte.Screen(columns, rows)
        self._stream = pyte.ByteStream(self.screen)
        self.raw = b""
        words = ["-m", "faulttree", *arguments] if command == sys.executable else arguments
        self._child = pexpect.spawn(
            command, words, env=env, dimensions=(rows, columns), timeout=None, echo=True
        )
        self._child.delaybeforesend = None

    def __enter__(self) -> "Program":
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        with contextlib.suppress(OSError):
            self._child.close(force=True)

    @property
    def text(self) -> str:
        """What the screen shows."""
        return "\n".join(line.rstrip() for line in self.screen.display)

    @property
    def is_running(self) -> bool:
        """True until the process has ended."""
        return bool(self._child.isalive())

    @property
    def pid(self) -> int:
        """The process."""
        return int(self._child.pid)

    def type(self, text: str | bytes) -> None:
        """Send keys; `\\r` is Enter."""
        self._child.send(text)

    def resize(self, columns: int, rows: int) -> None:
        """Give the window another size."""
        self.screen.resize(rows, columns)
        self._child.setwinsize(rows, columns)

    def signal(self, number: signal.Signals) -> None:
        """Send a signal."""
        os.kill(self.pid, number)

    def close_window(self) -> None:
        """Take the terminal away."""
        self._child.ptyproc.fileobj.close()
        self._child.closed = True

    def wait_for(self, *texts: str) -> None:
        """Wait until the screen shows all of these."""
        end = time.monotonic() + PATIENCE_S
        while not all(text in self.text for text in texts):
            assert time.monotonic() < end, f"not shown: {texts}\n{self.text}"
            self._read(0.05)

    def settle(self, seconds: float = 0.3) -> None:
        """Read until nothing new comes for a while."""
        while self._read(seconds):
            pass

    def wait_for_end(self) -> int:
        """Read to the end; the exit code comes back, negative for a signal."""
        end = time.monotonic() + PATIENCE_S
        while self._read(0.05) is not None:
            assert time.monotonic() < end, self.text
        self._child.wait()
        status = self._child.exitstatus
        return int(status) if status is not None else -int(self._child.signalstatus)

    def _read(self, seconds: float) -> bytes | None:
        """What came within some seconds; None at the end."""
        try:
            data: bytes = self._child.read_nonblocking(65536, seconds)
        except pexpect.TIMEOUT:
            return b""
        except pexpect.EOF:
            return None
        self.raw += data
        self._stream.feed(data)
        return data


Start = Callable[..., Program]
"""Starts the program: arguments, then `size` and what changes in the environment by name."""
