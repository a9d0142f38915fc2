"""A tree beside the best order of its tests, as text in 80 columns."""

from collections.abc import Iterable, Iterator

from faulttree.core.advice.draft import Draft
from faulttree.core.order.plan import Asked, Range
from faulttree.core.order.problem import WRONG_MINUTES
from faulttree.core.problem import FileProblems
from faulttree.render.order_losses import loss_lines
from faulttree.render.order_outline import outline_lines
from faulttree.render.order_result import OrderResult
from faulttree.render.page import count, section, wrapped
from faulttree.render.proof_words import own_instruments, percent


def order_text(result: OrderResult) -> str:
    """All of it, one line feed at the end."""
    return "".join(f"{line}\n" for line in _lines(result))


def written_text(draft: Draft, paths: Iterable[str], warnings: Iterable[FileProblems]) -> str:
    """What was written, and what is left to do."""
    tree, *others = paths
    lines = [f"Written: {tree}, with {' and '.join(others)}."]
    if draft.put_in:
        put_in = ", ".join(draft.put_in)
        lines.append(f"Put in because later bands refer to their readings: {put_in}.")
    if draft.open_ends:
        lines.append(
            f"{count(len(draft.open_ends), 'conclusion')} to write, where no verdict fits."
        )
    found = sum(len(each.problems) for each in warnings)
    if found:
        lines.append(f"{count(found, 'warning')}: faulttree check {tree} and its bench sheet.")
    lines.append(f"It is a draft: faulttree prove {tree} tells whether it holds.")
    return "".join(f"{line}\n" for line in lines)


def _lines(result: OrderResult) -> Iterator[str]:
    tree, told = result.bench.tree, result.compared.tellings
    yield from wrapped(
        f"{tree.id} {tree.version}: the order that takes the least minutes", "", "  "
    )
    cars = f"{count(len(told.cars), 'car')} with {count(len(result.suspects), 'fault')} of"
    tests = f"{count(len(told.tests), 'test')} that tell them apart"
    parts = f"{count(len(result.parts), 'part')}, {result.supply} battery"
    yield from wrapped(f"{cars} {parts}; {tests}")
    own = ", ".join(result.words.text(i.name) for i in own_instruments(result.words))
    if own:
        yield from wrapped(f"Read with your own: {own}")
    yield ""
    yield from _figures(result)
    yield from _aside(result)
    yield from loss_lines(result)
    yield from outline_lines(result)


def _figures(result: OrderResult) -> Iterator[str]:
    compared = result.compared
    best, tree = compared.best, compared.tree
    yield f"  {'minutes to one part':<21}{'expected':>9}{'worst':>9}  first test"
    rows = (
        ("this tree", tree.expected, tree.worst, result.bench.tree.start),
        ("best order", best.spent.expected, best.spent.worst, _first(result)),
    )
    for name, expected, worst, first in rows:
        yield from wrapped(first, f"  {name:<21}{expected:>9.1f}{worst:>9.1f}  ")
    if result.ratio is not None:
        yield f"  {'tree / best order':<21}{result.ratio:>9.2f}"
    yield ""
    if compared.wrong is not None:
        yield from wrapped(_wrong(result, compared.wrong))
    yield from wrapped(_proven(best.expected))


def _first(result: OrderResult) -> str:
    plan = result.compared.best.plan
    return plan.test if isinstance(plan, Asked) else "none"


def _wrong(result: OrderResult, share: float) -> str:
    with_wrong = f"{result.compared.best.expected.most:.1f} min"
    return (
        f"Where tests may be wrong, no part is ever certain: the order stops at the likeliest, "
        f"which is another than the true one for {percent(share)} of the cars. Each of these is "
        f"counted with {WRONG_MINUTES:g} min more, {with_wrong} in all. The tree is counted as if "
        "no test were wrong."
    )


def _proven(expected: Range) -> str:
    if expected.is_proven:
        return "Proven: no order of these tests takes less."
    gap = f" ({percent(expected.gap)} of it)" if expected.least > 0 else ""
    return (
        f"Not proven: no order takes less than {expected.least:.1f} min, so this one may take up "
        f"to {expected.most - expected.least:.1f} min{gap} more than the best."
    )


def _aside(result: OrderResult) -> Iterator[str]:
    yield from wrapped(
        "Not counted: sums to work out, tests done while the complaint is away, and steps that the "
        "circuit cannot answer. What several tests share is made ready once."
    )
    aside = result.aside
    reasons = (
        ("open for too many cars to be searched", result.compared.best.left_out),
        ("tell none of these cars apart", aside.idle),
        ("while the complaint is away", aside.away),
        ("the circuit cannot answer", aside.unanswered),
    )
    lines = [
        line
        for why, names in reasons
        if names
        for line in wrapped(", ".join(names), f"  {why}: ", "    ")
    ]
    yield from section("Tests left out", lines)
