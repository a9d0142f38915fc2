"""What real terminals do that the toolkit does not expect."""

import codecs
import os
import select
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from typing import Any, TextIO

from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

from faulttree.render.charset import for_console


def tolerate_stray_bytes() -> None:
    """Replace bytes that are not UTF-8 instead of dying of them.

    A Latin-1 terminal sends such a byte for ohm or degree, an old one for a far mouse position.
    Textual's key thread decodes strictly and ends on the first of them (Textual pull request
    6696); a test tells when this is no longer needed.
    """
    try:
        from textual.drivers import linux_driver
    except ImportError:  # Windows has another driver
        return

    def tolerant(encoding: str) -> object:
        return lambda: codecs.getincrementaldecoder(encoding)(errors="replace")

    if hasattr(linux_driver, "getincrementaldecoder"):
        linux_driver.getincrementaldecoder = tolerant


HUNG_UP = 129
"""Exit code when the terminal is gone: that of the signal which should have said so."""
_WATCH_S = 1.0
"""How often it is looked whether the terminal is still there [s]."""
_TO_END_S = 4.0
"""How long the program may take to end once it is gone [s]."""


def watch_for_hang_up(leave: Callable[[], object]) -> None:
    """End the program when its terminal is gone, in order if that can be done.

    A window can close without its signal reaching this process, as when a shell in between does
    not hand it on. Reading then gives nothing at once, for ever, and the processor is never idle.
    Drawing may be stuck in the lost terminal as well, so the watch is a thread of its own and
    does not wait for ever: every answer is on disk, there is nothing to save.

    Args:
        leave: asks the program to end; it is called in the watching thread.
    """
    keys = sys.__stdin__
    if keys is None or not keys.isatty() or not hasattr(select, "poll"):
        return
    poll = select.poll()
    poll.register(keys.fileno(), 0)

    def watch() -> None:
        while not any(what & (select.POLLHUP | select.POLLERR) for _, what in poll.poll(0)):
            time.sleep(_WATCH_S)
        deadline = threading.Timer(_TO_END_S, os._exit, (HUNG_UP,))
        deadline.daemon = True
        deadline.start()
        leave()

    threading.Thread(target=watch, name="hang-up watch", daemon=True).start()


class LastingOutput:
    """Output to a terminal that may go away: what can no longer be shown is dropped.

    Textual's writing thread ends on the first error, and whatever draws then waits for it for
    ever: signals are not seen any more and the process stays behind its closed window.
    """

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)

    def write(self, text: str) -> int:
        """Write what can be written."""
        with suppress(OSError):
            return self._stream.write(text)
        return 0

    def flush(self) -> None:
        """Send what can be sent."""
        with suppress(OSError):
            self._stream.flush()


@contextmanager
def lasting_output() -> Iterator[None]:
    """Let what the screen is drawn on outlast its window."""
    drawn_on = sys.__stderr__
    if drawn_on is None:
        yield
        return
    vars(sys)["__stderr__"] = LastingOutput(drawn_on)
    try:
        yield
    finally:
        vars(sys)["__stderr__"] = drawn_on


def mouse_wanted() -> bool:
    """False when FAULTTREE_NO_MOUSE is set: the terminal keeps its own marking of text."""
    return not os.environ.get("FAULTTREE_NO_MOUSE")


def is_text_console() -> bool:
    """True on a text console, whose font has few letters."""
    return os.environ.get("TERM") == "linux"


class ConsoleLetters(LineFilter):
    """Draws every line with the letters that the font of a text console has."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        """The line with what the font lacks replaced."""
        return [Segment(for_console(text), style, control) for text, style, control in segments]
