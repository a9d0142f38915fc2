"""Finding a tree by a customer's words."""

import re
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

_WORD = re.compile(r"[a-z0-9]+")
_EMPTY_WORDS = frozenset(
    (
        *("a", "an", "and", "are", "at", "but", "can", "does", "for", "get", "gets", "has"),
        *("have", "i", "in", "is", "it", "its", "my", "of", "on", "or", "so", "than", "that"),
        *("the", "then", "there", "they", "this", "to", "was", "when", "with"),
    )
)
"""Words that say nothing about a complaint."""


@dataclass(frozen=True, slots=True)
class Searchable:
    """What can be found of one tree.

    `key` is handed back by a search; `strong` and `weak` are its texts, folded to lower case.
    """

    key: str
    strong: str
    weak: str


def folded(text: str) -> str:
    """Lower case without accents."""
    plain = unicodedata.normalize("NFKD", text)
    return "".join(c for c in plain if not unicodedata.combining(c)).lower()


def searchable(key: str, strong: Iterable[str], weak: Iterable[str]) -> Searchable:
    """A tree made ready for searching; strong texts (title, complaint) count three times."""
    return Searchable(key, _joined(strong), _joined(weak))


def search(entries: Sequence[Searchable], words: str) -> list[str]:
    """Keys of the entries that fit, best first; all of them when nothing is asked.

    Words of little meaning are left out. Each remaining word counts where a word of the entry
    begins with it; entries that fit all words come before those that fit some.
    """
    wanted = _meaningful(words)
    if not wanted:
        return [entry.key for entry in entries]
    scored = ((_score(entry, wanted), n, entry.key) for n, entry in enumerate(entries))
    found = [(hits, strength, n, key) for (hits, strength), n, key in scored if hits]
    best = max((hits for hits, *_ in found), default=0)
    kept = sorted(
        (f for f in found if f[0] == best or f[0] >= (len(wanted) + 1) // 2),
        key=lambda f: (-f[0], -f[1], f[2]),
    )
    return [key for *_, key in kept]


def _score(entry: Searchable, wanted: Sequence[str]) -> tuple[int, int]:
    hits = strength = 0
    for word in wanted:
        begun = f" {word}"
        if begun in entry.strong:
            hits, strength = hits + 1, strength + 3
        elif begun in entry.weak:
            hits, strength = hits + 1, strength + 1
    return hits, strength


def _meaningful(words: str) -> list[str]:
    found = _WORD.findall(folded(words))
    kept = [_stem(w) for w in found if w not in _EMPTY_WORDS]
    return list(dict.fromkeys(kept or found))


def _stem(word: str) -> str:
    """Without the endings that customers vary: cooling, cools; a beginning is matched anyway."""
    for ending in ("ing", "ed", "es", "s"):
        if len(word) > len(ending) + 3 and word.endswith(ending):
            return word[: -len(ending)]
    return word


def _joined(texts: Iterable[str]) -> str:
    return " " + " ".join(_WORD.findall(folded(" ".join(texts))))
