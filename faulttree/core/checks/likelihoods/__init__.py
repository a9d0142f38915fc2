"""The rules a table of likelihoods is held to beyond its shape, one module each.

As with the rules for trees: the id of a rule, its entry in docs/checks.md and its case in
tests/likelihood_cases.py share a name.
"""

from collections.abc import Callable, Iterator

from faulttree.core.checks.finding import Finding
from faulttree.core.checks.likelihoods import columns, rows, shares, steps, suspects
from faulttree.core.likelihoods import LikelihoodTable
from faulttree.core.tree import Tree

Found = Iterator[Finding]

ALONE: tuple[Callable[[LikelihoodTable], Found], ...] = (
    suspects.check,
    rows.check,
    shares.check,
)
"""Rules for the table by itself."""

WITH_TREE: tuple[Callable[[LikelihoodTable, Tree], Found], ...] = (steps.check, columns.check)
"""Rules for the table beside its tree."""


def check_likelihoods(table: LikelihoodTable, tree: Tree | None) -> list[Finding]:
    """Everything that is wrong with a table of likelihoods whose shape is right.

    Args:
        table: the table.
        tree: the tree that it names, without errors; None where there is none.
    """
    found = [finding for rule in ALONE for finding in rule(table)]
    if tree is not None:
        found += [finding for rule in WITH_TREE for finding in rule(table, tree)]
    return found


__all__ = ["ALONE", "WITH_TREE", "Finding", "check_likelihoods"]
