"""loop-limit: a sheet sets an input so that the refrigerant loop is worked out where no car is."""

from collections.abc import Iterator, Mapping
from contextlib import suppress

from faulttree.core.bench.document import BenchSheet
from faulttree.core.checks.bench.walks import set_ups_in
from faulttree.core.checks.circuit.loop_limits import between, beyond, is_within, limits_at
from faulttree.core.checks.finding import DocumentPath, Finding
from faulttree.core.circuit.amounts import amounts_in, si
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.expression import Expression, ExpressionError
from faulttree.core.uncertain import CannotWorkOut
from faulttree.core.units import Quantity

Inputs = Mapping[str, Expression]


def check(sheet: BenchSheet, model: CircuitModel) -> Iterator[Finding]:
    """One finding for each input of a day, a situation or a test that takes the loop too far."""
    if model.loop is None:
        return
    followed = [
        (written.value, written.mark.quantity, tuple(written.path))
        for written in amounts_in(model.loop)
        if written.mark and written.value.names and limits_at(tuple(written.path))
    ]
    for at, inputs in _set(sheet):
        for value, quantity, path in followed:
            yield from _too_far(model, at, inputs, value, quantity, path)


def _set(sheet: BenchSheet) -> Iterator[tuple[DocumentPath, Inputs]]:
    for supply, day in sheet.days.items():
        yield ("days", supply), day
    for name, situation in sheet.situations.items():
        yield ("situations", name, "inputs"), situation.inputs
    for at, set_up in set_ups_in(sheet):
        yield (*at, "inputs"), set_up.inputs


def _too_far(
    model: CircuitModel,
    at: DocumentPath,
    inputs: Inputs,
    value: Expression,
    quantity: Quantity,
    path: DocumentPath,
) -> Iterator[Finding]:
    limits = limits_at(path)
    changed = sorted(value.names & inputs.keys())
    if not limits or not changed:
        return
    with suppress(ExpressionError, CannotWorkOut, KeyError):  # another rule tells it
        values = {name: si(inputs[name], model.quantities[name]) for name in changed}
        if not is_within(limits, value, quantity, model, values):
            message = f"{inputs[changed[0]].text} is {beyond(limits)}"
            yield Finding("loop-limit", (*at, changed[0]), message, between(limits))
