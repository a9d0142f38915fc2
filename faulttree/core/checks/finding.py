"""What a rule finds: the place is a path into the document, which the loader turns into a line."""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

from faulttree.core.problem import Severity

DocumentPath = tuple[str | int, ...]
"""Keys and indexes from the document's root."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is wrong, and how to mend it.

    Attributes:
        check: id of the rule.
        path: where in the document.
        message: what is wrong, in one sentence.
        help: one thing to do.
        on_key: the key at `path` is meant, not its value.
    """

    check: str
    path: DocumentPath
    message: str
    help: str
    severity: Severity = "error"
    on_key: bool = False


def nearest(word: str, known: Iterable[str]) -> str:
    """“did you mean x?”, or what there is to choose from."""
    names = sorted(known)
    close = get_close_matches(word, names, n=1, cutoff=0.6)
    if close:
        return f"Did you mean {close[0]}?"
    if not names:
        return "There is none to refer to."
    listed = ", ".join(names[:12])
    return f"Known here: {listed}{' …' if len(names) > 12 else ''}."
