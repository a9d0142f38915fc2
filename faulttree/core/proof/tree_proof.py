"""The proof of one tree: every car walked, and what that says of the tree."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from faulttree.core.bench.bench import Bench
from faulttree.core.bench.sights import SURELY
from faulttree.core.bench.suspects import Row, Suspect
from faulttree.core.proof.ends import Ended, Named, Walked, names_of, worth_of
from faulttree.core.proof.judged import Judge
from faulttree.core.proof.standing import Mode
from faulttree.core.proof.walks import Closest, Trace, Walker
from faulttree.core.tree import Conclude, Do, Tree, exits


@dataclass(frozen=True, eq=False)
class TreeProof:
    """A tree walked under every fault.

    Attributes:
        bench: the tree on its bench.
        named: what each verdict names.
        walked: every walk: all cars with their fault present, then intermittent ones with the
            fault coming back; the healthy cars stand for a fault that is absent.
        trace: what they went through.
    """

    bench: Bench
    named: Mapping[str, Named]
    walked: tuple[Walked, ...]
    trace: Trace

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
        return tuple(sorted(self.trace.closest.values(), key=lambda c: c.margin.sigmas))

    @cached_property
    def unreached(self) -> tuple[str, ...]:
        """Steps that no car comes to, conclusions included."""
        reached = {
            e.end.conclusion for w in self.walked for e in w.ends
        } | self.trace.targets.keys()
        return tuple(step_id for step_id in self.tree.steps if step_id not in reached)

    @cached_property
    def idle(self) -> tuple[str, ...]:
        """Tests that send every car the same way, though their answers lead different ways."""
        return tuple(
            step_id
            for step_id, targets in self.trace.targets.items()
            if len(targets) == 1 and _could_part(self.tree, step_id)
        )

    @cached_property
    def ungrouped(self) -> tuple[str, ...]:
        """Verdicts that name several parts which no group holds."""
        return tuple(c for c, n in self.named.items() if len(n.parts) > 1 and not n.group)


def prove(bench: Bench, judge: Judge) -> TreeProof:
    """Walk a tree under every fault, at every supply, in every form.

    Args:
        bench: the tree on its bench.
        judge: its bands, with the vehicle's values and the instruments used.
    """
    named, walker = names_of(bench), Walker(bench, judge)
    cars = [(i, mode) for i, row in enumerate(bench.rows) for mode in _modes(row)]
    walked = []
    for (index, mode), ways in zip(cars, walker.walk(cars), strict=True):
        suspect = bench.rows[index].suspect
        ends = tuple(worth_of(bench, named, suspect, end) for end in ways.ends)
        walked.append(Walked(index, mode, ends, ways.mean_minutes, ways.worst_minutes))
    return TreeProof(bench, named, tuple(walked), walker.trace)


def _modes(row: Row) -> tuple[Mode, ...]:
    if row.suspect is None:
        return (Mode.ABSENT,)
    if row.suspect.comes is None:
        return (Mode.PRESENT,)
    return (Mode.PRESENT, Mode.COMES_BACK)


def _could_part(tree: Tree, step_id: str) -> bool:
    """Whether the answers of a step lead different ways."""
    step = tree.steps[step_id]
    if isinstance(step, Conclude | Do):
        return False
    aside = {"cannot be done", "implausible", "other test"}
    return len({target for label, target in exits(step) if label not in aside}) > 1
