"""All that is told of one proved tree: worked out once, then written as text, JSON or JUnit."""

from collections.abc import Iterator
from dataclasses import dataclass

from faulttree.core.circuit.amounts import si
from faulttree.core.proof.apart import Split, splits
from faulttree.core.proof.ends import Worth
from faulttree.core.proof.judged import Judge
from faulttree.core.proof.measures import Measures, holds_up, measures_of
from faulttree.core.proof.tree_proof import TreeProof
from faulttree.core.units import Quantity
from faulttree.render.page import count
from faulttree.render.proof_ends import FaultEnds, Landing, ends_of, landings
from faulttree.render.proof_words import Words, percent


@dataclass(frozen=True, eq=False)
class Result:
    """A proof with everything that follows from it.

    Attributes:
        proof: the walks.
        words: how its things are written.
        measures: its figures.
        wanted: isolation that the bench sheet asks for, from 0 to 1.
        ends: what becomes of the healthy cars and of each fault.
        landings: the conclusions with the faults that end there.
        splits: parts of a group that tests can tell apart.
        is_proved: whether the tree holds up.
        why_not: why it does not, in a few words each.
    """

    proof: TreeProof
    words: Words
    measures: Measures
    wanted: float
    ends: tuple[FaultEnds, ...]
    landings: tuple[Landing, ...]
    splits: tuple[Split, ...]
    is_proved: bool
    why_not: tuple[str, ...]

    @property
    def id(self) -> str:
        """The tree's id."""
        return self.proof.tree.id


def result_of(proof: TreeProof, judge: Judge, words: Words) -> Result:
    """Everything that follows from a proof."""
    measures, ends = measures_of(proof), ends_of(proof)
    wanted = si(proof.bench.sheet.isolation, Quantity.RATIO)
    return Result(
        proof,
        words,
        measures,
        wanted,
        ends,
        landings(proof, ends),
        tuple(splits(proof.bench, judge)),
        holds_up(proof, measures, wanted),
        tuple(_why_not(ends, measures, wanted)),
    )


def _why_not(ends: tuple[FaultEnds, ...], measures: Measures, wanted: float) -> Iterator[str]:
    wrong = [e for e in ends if any(r.worth is Worth.WRONG for r in e.reached)]
    if wrong:
        yield f"{count(len(wrong), 'fault')} may end in a wrong conclusion"
    alarms = [r for e in ends for r in e.reached if r.worth is Worth.FALSE_ALARM]
    if alarms:
        yield "a healthy car may end in a false alarm"
    if is_short(measures, wanted):
        yield f"{percent(measures.isolated)} isolated, the bench sheet wants {percent(wanted)}"


def is_short(measures: Measures, wanted: float) -> bool:
    """Whether less is isolated to one part than the bench sheet wants, as in `holds_up`."""
    return measures.isolated < wanted - 1e-12
