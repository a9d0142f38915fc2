"""unknown-band, unknown-outcome, share-sum: shares of what no step shows, or of more than all."""

from collections.abc import Iterator

from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.circuit.amounts import si
from faulttree.core.expression import ExpressionError
from faulttree.core.likelihoods import LikelihoodTable, Row
from faulttree.core.tree import Measure, Observe, Tree
from faulttree.core.uncertain import CannotWorkOut
from faulttree.core.units import Quantity

SUM_OFF = 0.01
"""How far the shares of a row may be from a whole, as they are rounded."""


def check(table: LikelihoodTable, tree: Tree) -> Iterator[Finding]:
    """Each row gives shares to bands or outcomes of its step, and no more than there is."""
    for step_id, rows in table.readings.items():
        step = tree.steps.get(step_id)
        if isinstance(step, Measure):
            names, kind = [band.name for band in step.bands], "band"
        elif isinstance(step, Observe):
            names, kind = [outcome.name for outcome in step.outcomes], "outcome"
        else:
            continue  # another rule tells it
        for suspect, row in rows.items():
            path = ("readings", step_id, suspect)
            wrong = list(_unknown(row, names, kind, path))
            yield from wrong or _sum(row, names, path)


def _unknown(row: Row, names: list[str], kind: str, path: DocumentPath) -> Iterator[Finding]:
    for name in row:
        if name not in names:
            message = f"{path[1]} has no {kind} “{name}” in the tree"
            help = nearest(name, [n for n in names if n not in row] or names)
            at = (*path, name)
            if kind == "band":
                yield Finding("unknown-band", at, message, help, on_key=True)
            else:
                yield Finding("unknown-outcome", at, message, help, on_key=True)


def _sum(row: Row, names: list[str], path: DocumentPath) -> Iterator[Finding]:
    """What is left out is spread over the rest; where nothing is left out, nothing may be left."""
    try:
        shares = [si(share, Quantity.RATIO) for share in row.values()]
    except (ExpressionError, CannotWorkOut):
        return  # another rule tells it
    total = sum(shares)
    is_whole = len(row) == len(names)
    if min(shares) < 0.0 or max(shares) > 1.0:
        return
    if total > 1.0 + SUM_OFF or (is_whole and total < 1.0 - SUM_OFF):
        message = f"the shares add up to {total:.4g} times the whole"
        help = "Make them add up to 100 %"
        help += "." if is_whole else "; what is missing is spread over what is left out."
        yield Finding("share-sum", path, message, help, on_key=True)
