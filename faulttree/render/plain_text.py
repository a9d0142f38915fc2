"""Text that is safe to send to a terminal: no control characters, no bidirectional overrides."""

import re

_UNSAFE = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\u200e\u200f\u202a-\u202e\u2066-\u2069]"
)


def safe(text: str) -> str:
    """The text with every character that could command a terminal shown as a question mark."""
    return _UNSAFE.sub("?", text)


def safe_line(text: str) -> str:
    """The same, on one line."""
    return safe(" ".join(text.split()))
