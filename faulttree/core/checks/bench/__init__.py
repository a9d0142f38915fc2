"""The rules a bench sheet is held to beyond its shape, one module each.

As with the rules for trees: the id of a rule, its entry in docs/checks.md and its case in
tests/bench_cases.py share a name. A rule says by what it is handed what it needs: the sheet alone,
the tree as well, the circuit model as well, or both.
"""

from collections.abc import Callable, Iterator

from faulttree.core.bench.document import BenchSheet
from faulttree.core.checks.bench import (
    access,
    amounts,
    elements,
    entries,
    fault_names,
    fits,
    groups,
    inputs,
    leads,
    loop_limits,
    nodes,
    outcomes,
    points,
    read_inputs,
    readings,
    same_names,
    sights,
    step_amounts,
    supplies,
    tree_circuit,
    unnamed,
    verdicts,
)
from faulttree.core.checks.finding import Finding
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.tree import Tree

Found = Iterator[Finding]

ALONE: tuple[Callable[[BenchSheet], Found], ...] = (
    amounts.check,
    access.check,
    sights.check,
    supplies.check,
)
"""Rules for the sheet by itself."""

WITH_TREE: tuple[Callable[[BenchSheet, Tree], Found], ...] = (
    entries.check,
    fits.check,
    readings.check,
    step_amounts.check,
    outcomes.check,
    verdicts.check,
    points.check,
)
"""Rules for the sheet beside its tree."""

WITH_CIRCUIT: tuple[Callable[[BenchSheet, CircuitModel], Found], ...] = (
    nodes.check,
    elements.check,
    inputs.check,
    fault_names.check,
    same_names.check,
    groups.check,
    loop_limits.check,
)
"""Rules for the sheet beside its circuit model."""

WITH_BOTH: tuple[Callable[[BenchSheet, Tree, CircuitModel], Found], ...] = (
    tree_circuit.check,
    leads.check,
    read_inputs.check,
)
"""Rules for all three."""


def check_bench(sheet: BenchSheet, tree: Tree | None, model: CircuitModel | None) -> list[Finding]:
    """Everything that is wrong with a bench sheet whose shape is right.

    Args:
        sheet: the sheet.
        tree: the tree that it names, without errors; None where there is none.
        model: the circuit model that it names, without errors; None where there is none.
    """
    found = [finding for rule in ALONE for finding in rule(sheet)]
    if tree is not None:
        found += [finding for rule in WITH_TREE for finding in rule(sheet, tree)]
    if model is not None:
        found += [finding for rule in WITH_CIRCUIT for finding in rule(sheet, model)]
    if tree is not None and model is not None:
        found += [finding for rule in WITH_BOTH for finding in rule(sheet, tree, model)]
    is_whole = tree is not None and not any(f.severity == "error" for f in found)
    if model is not None and is_whole:
        found += unnamed.check(sheet, model)
    return found


__all__ = ["ALONE", "WITH_BOTH", "WITH_CIRCUIT", "WITH_TREE", "Finding", "check_bench"]
