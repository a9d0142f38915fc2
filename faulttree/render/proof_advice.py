"""What an author may want to mend: groups, corrected verdicts, idle tests, steps never reached."""

from collections.abc import Iterable, Iterator

from faulttree.core.bench.suspects import chosen, parts_of
from faulttree.core.proof.apart import Split
from faulttree.core.proof.ends import Worth
from faulttree.core.proof.tree_proof import TreeProof
from faulttree.render.page import count, section, wrapped
from faulttree.render.proof_ends import FaultEnds
from faulttree.render.proof_result import Result
from faulttree.render.proof_words import Words

_FEW = 8


def advice_lines(result: Result) -> Iterator[str]:
    """Everything besides the figures that an author should know."""
    proof, words = result.proof, result.words
    yield from section("Parts that no test tells apart", _groups(proof, result.splits, words))
    head = "Verdicts on several parts that no group holds: name a group, or tell them apart"
    yield from section(head, _ungrouped(proof, words))
    head = "Verdicts that only their own proof corrected, under these faults"
    yield from section(head, _corrected(proof))
    head = "Intermittent faults that may also end so if they come and go during the walk"
    yield from section(head, _returning(result.ends, words))
    yield from section(
        "Tests that separate nothing: every car goes the same way from there", _names(proof.idle)
    )
    yield from section("Steps that no car comes to", _names(proof.unreached))


def _groups(proof: TreeProof, splits: tuple[Split, ...], words: Words) -> Iterator[str]:
    for name, group in proof.bench.sheet.groups.items():
        parts = parts_of(chosen(proof.bench.suspects, group.faults))
        yield from wrapped(f"{name}: {'; '.join(map(words.text, parts))}", "  ", "    ")
        yield from wrapped(words.text(group.why), "    ")
        for split in splits:
            if split.group == name:
                apart = f"{words.text(split.one)} and {words.text(split.other)}"
                steps = " and ".join(split.steps)
                yield from wrapped(f"but {apart} can be told apart by {steps}", "    ")


def _ungrouped(proof: TreeProof, words: Words) -> Iterator[str]:
    for conclusion in proof.ungrouped:
        parts = "; ".join(map(words.text, proof.named[conclusion].parts))
        yield from wrapped(f"{conclusion}: {parts}", "  ", "    ")


def corrected(proof: TreeProof) -> dict[str, tuple[str, ...]]:
    """Verdict to the faults that reached it and were sent on by its proof."""
    found: dict[str, dict[str, None]] = {}
    for walked, ended in proof.refuted:
        suspect = proof.row(walked).suspect
        for conclusion in ended.end.refuted:
            found.setdefault(conclusion, {})[suspect.id if suspect else "healthy"] = None
    return {conclusion: tuple(faults) for conclusion, faults in found.items()}


def _corrected(proof: TreeProof) -> Iterator[str]:
    for conclusion, faults in corrected(proof).items():
        yield from wrapped(f"{conclusion}: {_few(faults)}", "  ", "    ")


def _returning(ends: tuple[FaultEnds, ...], words: Words) -> Iterator[str]:
    """Ends that a fault has only while it comes and goes."""
    found: dict[str, list[str]] = {}
    for each in ends:
        for reached in each.reached:
            if reached.returning and not reached.rows and reached.worth is not Worth.NAMED:
                found.setdefault(reached.where, []).append(each.id)
    for where, faults in found.items():
        yield from wrapped(f"{words.text(where)}: {_few(faults)}", "  ", "    ")


def _names(names: tuple[str, ...]) -> Iterator[str]:
    if names:
        yield from wrapped(", ".join(names), "  ")


def _few(faults: Iterable[str]) -> str:
    names = tuple(faults)
    return ", ".join(names) if len(names) <= _FEW else count(len(names), "fault")
