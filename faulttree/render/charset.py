"""Letters that not every terminal shows, and what stands for them. It is decided here, once.

Where the locale is not Unicode, text is written in ASCII. A text console has Unicode but a font of
256 or 512 letters: there the few that such fonts lack are replaced by others of the same width.
"""

IN_ASCII = {
    "│": "|",
    "─": "-",
    "═": "=",
    "┴": "+",
    "→": "->",
    "…": "...",
    "“": '"',
    "”": '"',
    "‘": "'",
    "’": "'",
    "–": "-",
    "−": "-",
    "×": "x",
    "÷": "/",
    "·": "*",
    "≤": "<=",
    "±": "+/-",
    "Ω": "ohm",
    "\N{OHM SIGN}": "ohm",
    "µ": "u",
    "μ": "u",
    "°": "deg ",
    "²": "2",
}
"""What stands for a letter where only ASCII is shown; any other becomes a question mark."""

_LACKING = str.maketrans("→…“”‘’–−▁▂▃▅▆▇▔", ">~\"\"''--  ▄▄██ ")
"""What the fonts of text consoles lack.

Source: code page 437, the letters of the built-in font of PC text consoles (from memory).
"""


def substitute(error: UnicodeError) -> tuple[str, int]:
    """What is written for letters that an encoding lacks; an error handler for `codecs`.

    Raises:
        UnicodeError: it came from reading, not from writing.
    """
    if not isinstance(error, UnicodeEncodeError):
        raise error
    lacking = error.object[error.start : error.end]
    return "".join(IN_ASCII.get(letter, "?") for letter in lacking), error.end


def in_ascii(text: str) -> str:
    """The text in ASCII, as `substitute` would write it; for laying it out at its true width."""
    return text if text.isascii() else "".join(_in_ascii(letter) for letter in text)


def _in_ascii(letter: str) -> str:
    return letter if letter.isascii() else IN_ASCII.get(letter, "?")


def for_console(text: str) -> str:
    """The text in letters that the font of a text console has; no longer and no shorter."""
    return text.translate(_LACKING)
