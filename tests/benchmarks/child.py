"""Programs to be timed: how they are started, and a terminal that sees what they draw."""

import os
import pty
import re
import select
import signal
import struct
import subprocess
import sys
import termios
from collections.abc import Sequence
from fcntl import ioctl
from pathlib import Path
from time import perf_counter
from typing import Self

ROOT = Path(__file__).parents[2]
PROGRAM = ("-c", "from faulttree.cli.main import main; raise SystemExit(main())")
"""Arguments of Python that start the program as its installed script does."""
BARE_FORM = (str(Path(__file__).with_name("bare_form.py")),)
TIME_LIMIT_S = 20.0
"""Nothing that is waited for here takes longer, unless it never comes."""

_ESCAPE = re.compile(
    rb"\x1b(?:\[[0-?]*[ -/]*[@-~]"  # colours, movements of the cursor, modes
    rb"|\][^\x07\x1b]*(?:\x07|\x1b\\)"  # window title and the like
    rb"|[()][0-9A-B]|[=>78])"
)
_UNWANTED = ("PYTHONDONTWRITEBYTECODE", "PYTHONPROFILEIMPORTTIME", "NO_COLOR", "COLUMNS", "LINES")


def environment(places: Path) -> dict[str, str]:
    """This environment with private places; a start is timed as the second one of a user is.

    Compiled modules may be written, or every start would compile all it imports.
    """
    kept = {name: value for name, value in os.environ.items() if name not in _UNWANTED}
    return kept | {
        "PYTHONPATH": str(ROOT),
        "TERM": "xterm-256color",
        "COLORTERM": "truecolor",
        "FAULTTREE_DATA": str(places / "data"),
        "FAULTTREE_SETTINGS": str(places / "settings"),
    }


def run(arguments: Sequence[str], env: dict[str, str]) -> str:
    """Run Python with these arguments until it ends; what it says on stderr.

    Raises:
        RuntimeError: it failed.
    """
    done = subprocess.run(
        [sys.executable, *arguments],
        env=env,
        cwd=ROOT,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=TIME_LIMIT_S,
    )
    if done.returncode:
        raise RuntimeError(f"{arguments} ended with {done.returncode}: {done.stderr[-2000:]}")
    return done.stderr


def seconds_to_run(arguments: Sequence[str], env: dict[str, str]) -> float:
    """From before its start until Python with these arguments has ended [s]."""
    began = perf_counter()
    run(arguments, env)
    return perf_counter() - began


class Terminal:
    """Python with these arguments on a terminal of its own; killed when the block is left."""

    def __init__(
        self, arguments: Sequence[str], env: dict[str, str], size: tuple[int, int] = (80, 24)
    ) -> None:
        self._arguments = arguments
        self._env = env
        self._size = size

    def __enter__(self) -> Self:
        columns, lines = self._size
        self._master, slave = pty.openpty()
        ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", lines, columns, 0, 0))
        self._drawn = b""
        self.began = perf_counter()
        self._process = subprocess.Popen(
            [sys.executable, *self._arguments],
            env=self._env,
            cwd=ROOT,
            stdin=slave,
            stdout=slave,
            stderr=slave,
            start_new_session=True,
        )
        os.close(slave)
        return self

    def __exit__(self, *_: object) -> None:
        self._process.send_signal(signal.SIGKILL)
        self._process.wait()
        os.close(self._master)

    def seconds_until(self, *words: str, since: float | None = None) -> float:
        """Until all these words were drawn since the last `forget` or `type` [s].

        Words are looked for in what was drawn without its escape codes: cheap enough not to make
        the program wait for this terminal. Words that are drawn in two pieces are not found.

        Args:
            words: what to wait for.
            since: a time of `perf_counter`; the start of the program otherwise.

        Raises:
            TimeoutError: they did not come.
        """
        wanted = [word.encode() for word in words]
        deadline = perf_counter() + TIME_LIMIT_S
        while (left := deadline - perf_counter()) > 0 and self._read(left):
            read_at = perf_counter()
            text = _ESCAPE.sub(b"", self._drawn)
            if all(word in text for word in wanted):
                return read_at - (self.began if since is None else since)
        shown = _ESCAPE.sub(b"", self._drawn).decode("utf-8", "replace")
        raise TimeoutError(f"{words} did not come; drawn was: {shown[-1500:]}")

    def type(self, keys: str) -> float:
        """Type, forget what was drawn before; the time it was typed at."""
        self._drawn = b""
        at = perf_counter()
        os.write(self._master, keys.encode())
        return at

    def settle(self, quiet_s: float = 0.15) -> None:
        """Read until nothing was drawn for a while."""
        deadline = perf_counter() + TIME_LIMIT_S
        while perf_counter() < deadline and self._read(quiet_s):
            pass

    def memory_mb(self) -> float:
        """Resident memory of the program now [MB]; Linux only."""
        status = Path(f"/proc/{self._process.pid}/status").read_text("ascii")
        found = re.search(r"VmRSS:\s+(\d+) kB", status)
        if found is None:
            raise RuntimeError("this system does not say how much memory a program uses")
        return int(found[1]) / 1024

    def _read(self, wait_s: float) -> bool:
        if not select.select([self._master], [], [], wait_s)[0]:
            return False
        try:
            piece = os.read(self._master, 65536)
        except OSError:  # the program has ended
            return False
        self._drawn += piece
        return bool(piece)
