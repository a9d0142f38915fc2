"""The rules a tree is held to beyond its shape, one module each.

A rule is a function from a tree to findings. Adding one means adding a module here and its line
in `RULES`. Its id heads its docstring, docs/checks.md has its entry, tests/check_cases.py its case.
"""

from collections.abc import Callable, Iterator

from faulttree.core.checks import (
    band_edges,
    band_order,
    car_data,
    cautions,
    changes,
    evidence,
    fitted,
    instruments,
    leads,
    loops,
    names,
    placeholders,
    reference_kinds,
    same_names,
    targets,
    unreachable,
    unused_needs,
    walk_values,
)
from faulttree.core.checks.finding import Finding
from faulttree.core.tree import Tree

Rule = Callable[[Tree], Iterator[Finding]]

RULES: tuple[Rule, ...] = (
    targets.check,
    loops.check,
    unreachable.check,
    same_names.check,
    leads.check,
    instruments.check,
    band_edges.check,
    names.check,
    reference_kinds.check,
    band_order.check,
    walk_values.check,
    placeholders.check,
    unused_needs.check,
    car_data.check,
    cautions.check,
    evidence.check,
    fitted.check,
    changes.check,
)
"""Every rule, in the order in which their findings are easiest to mend."""


_WALKABLE: tuple[Rule, ...] = (targets.check, loops.check, names.check, reference_kinds.check)


def walkable(tree: Tree) -> list[Finding]:
    """What would stop a walk: the few rules that the fold relies on."""
    return [finding for rule in _WALKABLE for finding in rule(tree)]


def check_tree(tree: Tree) -> list[Finding]:
    """Everything that is wrong with a tree whose shape is right."""
    return [finding for rule in RULES for finding in rule(tree)]


__all__ = ["RULES", "Finding", "Rule", "check_tree", "walkable"]
