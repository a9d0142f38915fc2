"""What the terminal at hand can do: whether it can be drawn on, and which letters it shows."""

import codecs
import io
import locale
import os
import sys

from faulttree.render import charset

_SUBSTITUTE = "faulttree.substitute"


def take_any_text() -> None:
    """Let no letter stop the program: what cannot be read or shown is replaced by what can."""
    codecs.register_error(_SUBSTITUTE, charset.substitute)
    if isinstance(sys.stdin, io.TextIOWrapper):
        sys.stdin.reconfigure(errors="replace")
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            only_ascii = stream.isatty() and not is_unicode()
            stream.reconfigure(encoding="ascii" if only_ascii else None, errors=_SUBSTITUTE)


def is_unicode() -> bool:
    """True where the locale, as it was asked for, has all letters.

    Python may write UTF-8 in a locale without it, so the encoding of a stream does not tell. A
    locale that was asked for and is not installed counts by its name: the terminal is elsewhere.
    """
    asked = next((v for n in ("LC_ALL", "LC_CTYPE", "LANG") if (v := os.environ.get(n))), "")
    if os.name == "nt" or "utf8" in asked.lower().replace("-", ""):
        return True
    return codecs.lookup(locale.getencoding()).name == "utf-8"


def is_terminal() -> bool:
    """True where a person sits in front, whose screen can be drawn on."""
    sits = sys.stdin.isatty() and sys.stdout.isatty() and sys.stderr.isatty()
    return sits and os.environ.get("TERM", "") not in ("", "dumb")


def full_screen_possible() -> bool:
    """True on a screen that can be drawn on; where only its letters are lacking, that is said."""
    if not is_terminal():
        return False
    if not is_unicode():
        print(
            "The full screen needs a UTF-8 locale; this one has none, so it goes line by line.",
            file=sys.stderr,
        )
        return False
    return True
