"""Edges that a computed reading comes close to: within the error of the instrument, or nearly."""

from collections.abc import Iterator

from faulttree.core.proof.tree_proof import TreeProof
from faulttree.core.proof.walks import Closest
from faulttree.core.tree import Measure, WorkOut
from faulttree.render.page import section, wrapped
from faulttree.render.proof_words import Words, car

_HEAD = "Edges within the error of a reading (distance in standard uncertainties)"


def edge_lines(proof: TreeProof, words: Words) -> Iterator[str]:
    """The edges within error, the closest first, and the closest one that is clear."""
    within = [c for c in proof.closest if c.margin.is_within_error]
    clear = [c for c in proof.closest if not c.margin.is_within_error]
    yield from section(_HEAD, (line for c in within for line in _edge(proof, c, words)))
    head = "The closest edge that every reading is clear of"
    yield from section(head, (line for c in clear[:1] for line in _edge(proof, c, words)))


def _edge(proof: TreeProof, closest: Closest, words: Words) -> Iterator[str]:
    step_id, margin = closest.step_id, closest.margin
    read, edge = (words.value(v, step_id) for v in (closest.edge + margin.gap, closest.edge))
    lower, upper = names_beside(proof, closest)
    text = (
        f"{step_id}: {read} at {edge} ({words.text(lower)} | "
        f"{words.text(upper)}), {car(proof.bench.rows[closest.row])}"
    )
    yield from wrapped(text, f"  {margin.sigmas:>4.1f}  ")


def names_beside(proof: TreeProof, closest: Closest) -> tuple[str, str]:
    """The bands below and above the edge."""
    step = proof.tree.steps[closest.step_id]
    assert isinstance(step, Measure | WorkOut)
    edge = closest.margin.edge
    return step.bands[edge].name, step.bands[edge + 1].name
