"""The walks of a fault that differ: each way told once, with the cars that go it."""

from dataclasses import dataclass

from faulttree.core.bench.suspects import Suspect
from faulttree.core.proof.ends import Ended, Walked
from faulttree.core.proof.tree_proof import TreeProof
from faulttree.core.proof.walks import Mode, Passed
from faulttree.render.proof_ends import WORST_FIRST

HEALTHY = "healthy"
"""The name of the cars without a fault."""


@dataclass(frozen=True, slots=True)
class Path:
    """One way through the tree.

    Attributes:
        suspect: the fault; None for healthy cars.
        walked: the walks that go this way.
        ended: its end with its steps, as the first of them went.
    """

    suspect: Suspect | None
    walked: tuple[Walked, ...]
    ended: Ended

    def is_away(self, passed: Passed) -> bool:
        """Whether the fault was away when a step was done."""
        return passed.row != self.walked[0].row


def suspects_named(proof: TreeProof, name: str) -> tuple[Suspect | None, ...]:
    """The faults that a name stands for: a fault, a situation, all faults of an element, healthy.

    Nothing where no fault goes by the name.
    """
    if name == HEALTHY:
        return (None,)
    return tuple(s for s in proof.bench.suspects if s.is_named_by((name,)))


def names_known(proof: TreeProof) -> tuple[str, ...]:
    """Every name that `suspects_named` knows."""
    ids = [s.id for s in proof.bench.suspects]
    elements = [i.rpartition(".")[0] for i in ids if "." in i]
    return tuple(dict.fromkeys((HEALTHY, *ids, *elements)))


def paths_of(proof: TreeProof, suspect: Suspect | None) -> tuple[Path, ...]:
    """The ways that cars with a fault go, those with the worst ends first."""
    found: dict[object, tuple[list[Walked], Ended]] = {}
    for walked in proof.of(suspect):
        for ended in walked.ends:
            walks, _ = found.setdefault(_key(walked, ended), ([], ended))
            walks.append(walked)
    paths = [Path(suspect, tuple(walks), ended) for walks, ended in found.values()]
    return tuple(sorted(paths, key=_order))


def _key(walked: Walked, ended: Ended) -> object:
    steps = tuple((p.step_id, p.way, p.target, p.row == walked.row) for p in ended.end.path)
    return steps, ended.end.conclusion, ended.end.trouble, ended.worth


def _order(path: Path) -> tuple[bool, int, bool]:
    is_back = all(w.mode is Mode.COMES_BACK for w in path.walked)
    return not path.ended.worth.is_wrong, WORST_FIRST.index(path.ended.worth), is_back
