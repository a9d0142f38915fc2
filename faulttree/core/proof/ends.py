"""What a conclusion is worth under a fault."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from faulttree.core.bench.bench import Bench
from faulttree.core.bench.suspects import Suspect, chosen, parts_of
from faulttree.core.proof.walks import End, Mode
from faulttree.core.tree import Conclude


class Worth(StrEnum):
    """What a conclusion is worth under a fault, the best first."""

    NAMED = "named"
    """The verdict names the fault."""
    CLEARED = "no fault"
    """A healthy car, and no part condemned."""
    UNRESOLVED = "not isolated"
    """The tree says that it could not tell."""
    MISSED = "not detected"
    """The tree says that there is no fault."""
    STUCK = "leads nowhere"
    """The walk comes to no conclusion."""
    FALSE_ALARM = "false alarm"
    """A part of a healthy car is condemned, or the car is sent elsewhere."""
    WRONG = "wrong"
    """A verdict that does not name the fault."""

    @property
    def is_wrong(self) -> bool:
        """Whether it may never happen."""
        return self in (Worth.WRONG, Worth.FALSE_ALARM)


@dataclass(frozen=True, slots=True)
class Named:
    """What a verdict names.

    Attributes:
        suspects: the faults it is right for.
        parts: their parts; one where the verdict isolates.
        group: the ambiguity group that holds them all, where they are of several parts; empty
            where no group does.
    """

    suspects: tuple[Suspect, ...]
    parts: tuple[str, ...]
    group: str = ""


@dataclass(frozen=True, slots=True)
class Ended:
    """One end of a walk, and what it is worth.

    Attributes:
        end: the conclusion and the path.
        worth: what it is worth.
        group_size: parts that a right verdict names; 0 otherwise.
    """

    end: End
    worth: Worth
    group_size: int = 0


@dataclass(frozen=True, slots=True)
class Walked:
    """All ends of one car's walk.

    Attributes:
        row: index of the car on the bench.
        mode: whether the fault was there.
        ends: every end.
        mean_minutes: with every way on from a step as likely as the others [min].
        worst_minutes: on the longest path [min].
    """

    row: int
    mode: Mode
    ends: tuple[Ended, ...]
    mean_minutes: float
    worst_minutes: float

    @property
    def is_isolated(self) -> bool:
        """Whether every end names the fault's part and no other."""
        return self.group_size == 1

    @property
    def group_size(self) -> int:
        """The largest number of parts that a verdict leaves; 0 where an end names none."""
        if any(e.worth is not Worth.NAMED for e in self.ends):
            return 0
        return max((e.group_size for e in self.ends), default=0)

    @property
    def worst(self) -> Worth:
        """The worst of its ends."""
        order = list(Worth)
        return max((e.worth for e in self.ends), key=order.index, default=Worth.STUCK)


def names_of(bench: Bench) -> Mapping[str, Named]:
    """What every verdict of the bench sheet names."""
    found = {}
    for conclusion, verdict in bench.sheet.verdicts.items():
        suspects = chosen(bench.suspects, verdict.names)
        parts = parts_of(suspects)
        group = _group_of(bench, suspects) if len(parts) > 1 else ""
        found[conclusion] = Named(suspects, parts, group)
    return found


def _group_of(bench: Bench, suspects: Sequence[Suspect]) -> str:
    for name, group in bench.sheet.groups.items():
        if all(s.is_named_by(group.faults) for s in suspects):
            return name
    return ""


def worth_of(bench: Bench, named: Mapping[str, Named], suspect: Suspect | None, end: End) -> Ended:
    """What an end is worth.

    Args:
        bench: the tree on the bench.
        named: what each verdict names.
        suspect: what is wrong with the car while it is tested; None for a healthy one.
        end: where the walk ended.
    """
    step = bench.tree.steps.get(end.conclusion)
    if not isinstance(step, Conclude):
        return Ended(end, Worth.STUCK)
    if suspect is None:
        return Ended(end, Worth.CLEARED if step.names_no_fault else Worth.FALSE_ALARM)
    if step.names_no_fault:
        return Ended(end, Worth.MISSED if step.result == "no-fault-found" else Worth.UNRESOLVED)
    names = named.get(end.conclusion)
    if names is None or suspect not in names.suspects:
        return Ended(end, Worth.WRONG)
    return Ended(end, Worth.NAMED, len(names.parts))
