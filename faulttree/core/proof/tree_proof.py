"""The proof of one tree: every car walked, and what that says of the tree."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from faulttree.core.bench.bench import Bench
from faulttree.core.bench.sights import SURELY
from faulttree.core.bench.suspects import Row, Suspect
from faulttree.core.proof.ends import Ended, Named, Walked, Worth, names_of, worth_of
from faulttree.core.proof.judged import Judge, Margin
from faulttree.core.proof.walks import Mode, Passed, Walker, margins_of
from faulttree.core.tree import Conclude, Do, Tree, exits


@dataclass(frozen=True, slots=True)
class Closest:
    """The reading that comes closest to an edge which leads another way.

    Attributes:
        step_id, margin: the edge and the distance.
        row: the car.
        passed: the step as it was passed.
    """

    step_id: str
    margin: Margin
    row: int
    passed: Passed


@dataclass(frozen=True, eq=False)
class TreeProof:
    """A tree walked under every fault.

    Attributes:
        bench: the tree on its bench.
        named: what each verdict names.
        walked: every walk: all cars with their fault present, then intermittent ones with the
            fault coming back; the healthy cars stand for a fault that is absent.
    """

    bench: Bench
    named: Mapping[str, Named]
    walked: tuple[Walked, ...]

    @property
    def tree(self) -> Tree:
        """The tree."""
        return self.bench.tree

    def row(self, walked: Walked) -> Row:
        """The car of a walk."""
        return self.bench.rows[walked.row]

    def of(self, suspect: Suspect | None, *modes: Mode) -> tuple[Walked, ...]:
        """The walks of a suspect, or of the healthy cars."""
        wanted = modes or tuple(Mode)
        return tuple(w for w in self.walked if self.row(w).suspect is suspect and w.mode in wanted)

    def shows(self, walked: Walked) -> bool:
        """Whether the car surely shows the complaint."""
        return bool(self.bench.complaint[walked.row] == SURELY)

    @cached_property
    def wrong(self) -> tuple[tuple[Walked, Ended], ...]:
        """Every end that may never be."""
        return tuple((w, e) for w in self.walked for e in w.ends if e.worth.is_wrong)

    @cached_property
    def refuted(self) -> tuple[tuple[Walked, Ended], ...]:
        """Ends behind a verdict that its own proof did not bear out."""
        return tuple((w, e) for w in self.walked for e in w.ends if e.end.refuted)

    @cached_property
    def closest(self) -> tuple[Closest, ...]:
        """For each edge the reading that comes closest to it, the closest first."""
        found: dict[tuple[str, int], Closest] = {}
        for walked in self.walked:
            for passed, margin in margins_of(tuple(e.end for e in walked.ends)):
                key = passed.step_id, margin.edge
                if key not in found or margin.sigmas < found[key].margin.sigmas:
                    found[key] = Closest(passed.step_id, margin, passed.row, passed)
        return tuple(sorted(found.values(), key=lambda c: c.margin.sigmas))

    @cached_property
    def unreached(self) -> tuple[str, ...]:
        """Steps that no car comes to, conclusions included."""
        reached = {p.step_id for _, e in self._ends for p in e.end.path}
        reached |= {e.end.conclusion for _, e in self._ends}
        return tuple(step_id for step_id in self.tree.steps if step_id not in reached)

    @cached_property
    def idle(self) -> tuple[str, ...]:
        """Tests that send every car the same way, though their answers lead different ways."""
        ways: dict[str, set[str]] = {}
        for _, ended in self._ends:
            for passed in ended.end.path:
                ways.setdefault(passed.step_id, set()).add(passed.target)
        return tuple(
            step_id
            for step_id, targets in ways.items()
            if len(targets) == 1 and _could_part(self.tree, step_id)
        )

    @cached_property
    def ungrouped(self) -> tuple[str, ...]:
        """Verdicts that name several parts which no group holds."""
        return tuple(c for c, n in self.named.items() if len(n.parts) > 1 and not n.group)

    @property
    def _ends(self) -> Iterator[tuple[Walked, Ended]]:
        return ((w, e) for w in self.walked for e in w.ends)


def prove(bench: Bench, judge: Judge) -> TreeProof:
    """Walk a tree under every fault, at every supply, in every form.

    Args:
        bench: the tree on its bench.
        judge: its bands, with the vehicle's values and the instruments used.
    """
    walker, named = Walker(bench, judge), names_of(bench)
    walked = [
        _walk(walker, named, index, mode)
        for index, row in enumerate(bench.rows)
        for mode in _modes(row)
    ]
    return TreeProof(bench, named, tuple(walked))


def _modes(row: Row) -> tuple[Mode, ...]:
    if row.suspect is None:
        return (Mode.ABSENT,)
    if row.suspect.comes is None:
        return (Mode.PRESENT,)
    return (Mode.PRESENT, Mode.COMES_BACK)


def _walk(walker: Walker, named: Mapping[str, Named], index: int, mode: Mode) -> Walked:
    ends, is_cut_short = walker.walk(index, mode)
    suspect = walker.bench.rows[index].suspect
    found = tuple(worth_of(walker.bench, named, suspect, end) for end in ends)
    return Walked(index, mode, found, is_cut_short)


def _could_part(tree: Tree, step_id: str) -> bool:
    """Whether the answers of a step lead different ways."""
    step = tree.steps[step_id]
    if isinstance(step, Conclude | Do):
        return False
    aside = {"cannot be done", "implausible", "other test"}
    return len({target for label, target in exits(step) if label not in aside}) > 1


__all__ = ["Closest", "TreeProof", "Worth", "prove"]
