"""What real terminals do that the toolkit does not expect."""

import codecs
import os


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


def mouse_wanted() -> bool:
    """False when FAULTTREE_NO_MOUSE is set: the terminal keeps its own marking of text."""
    return not os.environ.get("FAULTTREE_NO_MOUSE")
