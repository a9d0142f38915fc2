"""Texts of a tree: the {names} in them, and filling those in."""

import re
from collections.abc import Mapping

_PLACEHOLDER = re.compile(r"\{([a-z][a-z0-9-]*)\}")


def placeholders(text: str) -> tuple[str, ...]:
    """The names in curly brackets, in order, each once."""
    return tuple(dict.fromkeys(_PLACEHOLDER.findall(text)))


def fill(text: str, words: Mapping[str, str]) -> str:
    """The text with every {name} that `words` knows replaced; others stay as they are."""
    return _PLACEHOLDER.sub(lambda match: words.get(match[1], match[0]), text)
