"""What the home screen lists, and reading it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from faulttree.core.search import Searchable, folded, search
from faulttree.files.cases import CaseSummary, summaries
from faulttree.files.library import TreeEntry, list_trees
from faulttree.files.places import cases_folder

__all__ = ["CaseSummary", "HomeData", "TreeEntry", "load_home"]


@dataclass(frozen=True, slots=True)
class HomeData:
    """Trees and cases as last read."""

    trees: Mapping[str, TreeEntry] = field(default_factory=dict)
    searchable: Sequence[Searchable] = ()
    cases: Sequence[CaseSummary] = ()
    troubles: Sequence[str] = ()
    loaded: bool = False

    @property
    def open_cases(self) -> int:
        """How many cases wait to be gone on with."""
        return sum(not case.closed for case in self.cases)

    def find(self, words: str) -> list[TreeEntry]:
        """The trees that fit, best first."""
        return [self.trees[key] for key in search(self.searchable, words)]

    def find_cases(self, words: str) -> list[CaseSummary]:
        """The cases in which every word occurs; all when nothing is asked."""
        wanted = folded(words).split()
        return [
            c for c in self.cases if all(w in folded(f"{c.id} {c.car} {c.words}") for w in wanted)
        ] or (list(self.cases) if not wanted else [])


def nearest_complaint(entry: TreeEntry, words: str) -> str:
    """The complaint of a tree that shares most words with what was typed; else its first."""
    typed = folded(words).split()

    def shared(complaint: str) -> int:
        begun = folded(complaint).split()
        return sum(any(word.startswith(part) for word in begun) for part in typed)

    return max(entry.complaint, key=shared, default="")


def load_home() -> HomeData:
    """Read the heads of all trees and the summaries of all cases."""
    entries = list_trees()
    usable = [e for e in entries if not e.trouble]
    cases = sorted(summaries(cases_folder()), key=lambda c: c.closed)
    return HomeData(
        trees={e.id: e for e in usable},
        searchable=[e.words for e in usable],
        cases=cases,
        troubles=[f"{e.path}: {e.trouble}" for e in entries if e.trouble],
        loaded=True,
    )
