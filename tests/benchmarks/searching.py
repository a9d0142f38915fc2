"""How long a search takes at every key while a customer's words are typed."""

from statistics import median
from time import perf_counter

from faulttree.core.search import Searchable, search, searchable

from .rows import Row

_TREES = 10_000
_WORDS = (
    "cranks", "sometimes", "dark", "cold", "hot", "click", "fan", "blower", "lamp", "fuse",
    "relay", "slow", "noise", "smell", "wet",
)  # fmt: skip
_TYPED = "it only clicks when cold"


def rows(rounds: int) -> list[Row]:
    """The slowest key of a sentence, over ten thousand trees."""
    entries = [_entry(n) for n in range(_TREES)]
    keys = [_TYPED[:length] for length in range(1, len(_TYPED) + 1)]
    slowest = max(median(_seconds(entries, typed) for _ in range(rounds)) for typed in keys)
    what = f"search over {_TREES:,} trees, slowest key"
    return [Row(what, "", slowest * 1000, 30, "ms", f"{len(keys)} keys")]


def _entry(n: int) -> Searchable:
    """A tree whose title and three complaints are made of a few words each."""
    words = [_WORDS[(n * step + step) % len(_WORDS)] for step in range(1, 25)]
    texts = [" ".join(words[at : at + 6]) for at in range(0, 24, 6)]
    return searchable(f"tree-{n}", texts, (f"system {n % 9}", f"tree-{n}"))


def _seconds(entries: list[Searchable], typed: str) -> float:
    began = perf_counter()
    search(entries, typed)
    return perf_counter() - began
