"""The rules a circuit model is held to beyond its shape, one module each.

As with the rules for trees: a rule is a function from a model to findings; its id, its entry in
docs/checks.md and its case under tests/core/checks/circuit share a name.
"""

from collections.abc import Callable, Iterator

from faulttree.core.checks.circuit import (
    amounts,
    conditions,
    curves,
    fault_names,
    inputs,
    loop,
    loop_limits,
    nodes,
    paths,
    thresholds,
)
from faulttree.core.checks.finding import Finding
from faulttree.core.circuit.document import CircuitModel

Rule = Callable[[CircuitModel], Iterator[Finding]]

RULES: tuple[Rule, ...] = (
    nodes.check,
    inputs.check,
    conditions.check,
    amounts.check,
    curves.check,
    thresholds.check,
    fault_names.check,
    loop.check,
    loop_limits.check,
)
"""Every rule, in the order in which their findings are easiest to mend."""


def check_circuit(model: CircuitModel) -> list[Finding]:
    """Everything that is wrong with a circuit model whose shape is right."""
    found = [finding for rule in RULES for finding in rule(model)]
    return found or list(paths.check(model))


__all__ = ["RULES", "Finding", "Rule", "check_circuit"]
