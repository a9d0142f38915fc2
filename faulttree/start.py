"""What makes the program start and end quickly. It imports next to nothing itself."""

import gc
import os


def begin() -> None:
    """Do without what takes time at every start and gives this program nothing.

    Nearly all that a start makes stays. Python would look through it for garbage two hundred
    times; pydantic would look through everything that is installed for plugins.
    """
    gc.set_threshold(100_000, 20, 50)
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")


def is_over() -> None:
    """Look for garbage as usual from here on, but no more among what the start has made."""
    gc.freeze()
    gc.set_threshold(700, 10, 10)


def end() -> None:
    """Leave out the last search for garbage: the system takes everything back at once."""
    gc.freeze()
