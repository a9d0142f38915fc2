"""band-gap, band-overlap, band-edge: the bands of a step do not join up."""

from collections.abc import Iterator

from faulttree.core.checks.finding import DocumentPath, Finding
from faulttree.core.expression import Expression, ExpressionError
from faulttree.core.tree import Band, Measure, Tree, WorkOut
from faulttree.core.uncertain import CannotWorkOut
from faulttree.core.units import Quantity


def check(tree: Tree) -> Iterator[Finding]:
    """Bands run from low to high; each begins where the one before ends."""
    for step_id, step in tree.steps.items():
        if isinstance(step, Measure | WorkOut):
            at: DocumentPath = ("steps", step_id, "bands")
            yield from _ends(at, step.bands)
            for index in range(len(step.bands) - 1):
                yield from _joint(at, index, step)


def _ends(at: DocumentPath, bands: tuple[Band, ...]) -> Iterator[Finding]:
    first, last = bands[0], bands[-1]
    if first.from_ is not None:
        yield Finding(
            "band-gap",
            (*at, 0, "from"),
            f"no band takes readings below {first.from_.text}",
            "The lowest band has no from: it takes everything below its upper edge.",
        )
    if last.below is not None:
        yield Finding(
            "band-gap",
            (*at, len(bands) - 1, "below"),
            f"no band takes readings of {last.below.text} and more",
            "The highest band has no below: it takes everything from its lower edge on.",
        )


def _joint(at: DocumentPath, index: int, step: Measure | WorkOut) -> Iterator[Finding]:
    lower, upper = step.bands[index], step.bands[index + 1]
    if lower.below is None and upper.from_ is None:
        yield Finding(
            "band-edge",
            (*at, index),
            f"nothing says where {lower.name} ends and {upper.name} begins",
            f"Give {lower.name} a below.",
        )
    elif lower.below and upper.from_ and not _same(lower.below, upper.from_, step.quantity):
        yield _mismatch((*at, index + 1, "from"), lower, upper, step.quantity)


def _mismatch(at: DocumentPath, lower: Band, upper: Band, quantity: Quantity) -> Finding:
    assert lower.below is not None
    assert upper.from_ is not None
    end, begin = _constant(lower.below, quantity), _constant(upper.from_, quantity)
    words = f"{lower.name} ends at {lower.below.text}, {upper.name} begins at {upper.from_.text}"
    help = f"Make both the same, or leave out from: it is {lower.below.text} then."
    if end is not None and begin is not None and end < begin:
        return Finding("band-gap", at, f"no band takes the readings between: {words}", help)
    if end is not None and begin is not None:
        return Finding("band-overlap", at, f"two bands take the same readings: {words}", help)
    return Finding("band-gap", at, f"the bands do not join: {words}", help)


def _same(a: Expression, b: Expression, quantity: Quantity) -> bool:
    if a.root == b.root:
        return True
    x, y = _constant(a, quantity), _constant(b, quantity)
    return x is not None and y is not None and abs(x - y) <= 1e-9 * max(1.0, abs(x))


def _constant(expression: Expression, quantity: Quantity) -> float | None:
    """The value of an edge without names, or None."""
    try:
        return expression.evaluator(quantity, {})({}).value
    except (ExpressionError, CannotWorkOut):
        return None
