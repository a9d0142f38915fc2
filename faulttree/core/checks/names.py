"""expression: a band or sum does not fit: unknown names, or kinds that do not go together."""

from collections.abc import Iterator

from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.expression import Expression, ExpressionError
from faulttree.core.expression_functions import FUNCTIONS
from faulttree.core.expression_parser import OWN_FUNCTIONS
from faulttree.core.tree import Measure, Tree, WorkOut

Placed = tuple[DocumentPath, Expression]


def check(tree: Tree) -> Iterator[Finding]:
    """Every expression of a step reads as the step's quantity."""
    for step_id, step in tree.steps.items():
        if isinstance(step, Measure | WorkOut):
            for path, expression in placed(step):
                yield from _check(tree, ("steps", step_id, *path), expression, step)


def _check(
    tree: Tree, path: DocumentPath, expression: Expression, step: Measure | WorkOut
) -> Iterator[Finding]:
    unknown = sorted(name for name in expression.names if name not in tree.quantities)
    for name in unknown:
        yield Finding(
            "expression",
            path,
            f"{name} is neither an earlier step nor a value under needs",
            nearest(name, tree.quantities),
        )
    no_functions = sorted(name for name in expression.functions if name not in FUNCTIONS)
    for name in no_functions:
        help = nearest(name, (*FUNCTIONS, *OWN_FUNCTIONS))
        yield Finding("expression", path, f"no function is called {name}", help)
    if unknown or no_functions:
        return
    try:
        expression.evaluator(step.quantity, tree.quantities)
    except ExpressionError as error:
        yield Finding(
            "expression", path, str(error), f"This step's quantity is {step.quantity.words}."
        )


def placed(step: Measure | WorkOut) -> Iterator[Placed]:
    """Every expression of a step, with its path inside the step."""
    for index, band in enumerate(step.bands):
        if band.from_:
            yield ("bands", index, "from"), band.from_
        if band.below:
            yield ("bands", index, "below"), band.below
    yield ("plausible", "from"), step.plausible.from_
    yield ("plausible", "below"), step.plausible.below
    if isinstance(step, WorkOut):
        yield ("value",), step.value
