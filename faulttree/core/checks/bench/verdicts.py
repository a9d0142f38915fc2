"""verdict-names, verdict-proof: a verdict names faults, or is proved, where the tree does not."""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet, ProofOf
from faulttree.core.checks.finding import Finding
from faulttree.core.tree import Conclude, Tree


def check(sheet: BenchSheet, tree: Tree) -> Iterator[Finding]:
    """Faults are named where the verdict may be right for one, proofs where it is proved."""
    for name, verdict in sheet.verdicts.items():
        step = tree.steps.get(name)
        if not isinstance(step, Conclude):
            continue
        if step.names_no_fault:
            message = f"{name} ends in {step.result}, which is right for no fault"
            help = "Take the entry out; under a fault it counts as: could not tell."
            yield Finding("verdict-names", ("verdicts", name), message, help, on_key=True)
        elif verdict.proof and step.prove is None:
            message = f"{name} has no prove in the tree that this would do"
            help = "Take proof out, or give the conclusion prove."
            yield Finding("verdict-proof", ("verdicts", name, "proof"), message, help, on_key=True)
        elif verdict.proof and not _does_something(verdict.proof):
            message = f"the proof of {name} changes nothing on the car"
            help = "Say what it replaces, bridges or sets, or take proof out."
            yield Finding("verdict-proof", ("verdicts", name, "proof"), message, help, on_key=True)


def _does_something(proof: ProofOf) -> bool:
    changes = proof.replaces, proof.inputs, proof.bridges, proof.loads, proof.removes
    return any(changes) or proof.elapsed is not None or bool(proof.holds)
