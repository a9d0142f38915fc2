"""unknown-input, unknown-state, bench-amount, sight-fits: the car cannot be as the sheet says."""

from collections.abc import Iterator, Mapping

from faulttree.core.bench.document import NORMAL, BenchSheet, Sight
from faulttree.core.checks.bench.kinds import misfit, write
from faulttree.core.checks.bench.walks import set_ups_in, sights_in
from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.expression import Expression
from faulttree.core.units import Quantity


def check(sheet: BenchSheet, model: CircuitModel) -> Iterator[Finding]:
    """Inputs are there, and are given states or values that they can have."""
    car = _Car(sheet, model)
    for at, set_up in set_ups_in(sheet):
        yield from car.is_set((*at, "inputs"), set_up.inputs, with_choices=True)
    for supply, day in sheet.days.items():
        yield from car.is_set(("days", supply), day)
    for name, situation in sheet.situations.items():
        yield from car.is_set(("situations", name, "inputs"), situation.inputs)
    for at, sight in sights_in(sheet):
        yield from car.is_set((*at, "at"), sight.at)
        yield from _seen(car, at, sight)
    for name, test in sheet.tests.items():
        if test.of:
            yield from car.is_there(("tests", name, "of"), test.of)
        for over, states in test.over.items():
            path = ("tests", name, "over", over)
            yield from car.has_states(path, over, _listed(path, states), on_key=True)
    for name, choice in sheet.choices.items():
        listed = _listed(("choices", name, "of"), choice.of)
        yield from car.has_states(("choices", name, "input"), choice.input, listed)
    yield from _points(car, sheet)


def _seen(car: "_Car", at: DocumentPath, sight: Sight) -> Iterator[Finding]:
    if sight.input and sight.is_:
        states = _listed((*at, "is"), sight.is_)
        yield from car.has_states((*at, "input"), sight.input, states)
    elif sight.input:
        edges = (("from", sight.from_), ("below", sight.below))
        values = {(*at, key): edge for key, edge in edges if edge is not None}
        yield from car.has_values((*at, "input"), sight.input, values)
        if sight.about is not None:
            yield from car.has_shares((*at, "about"), sight.input)


def _points(car: "_Car", sheet: BenchSheet) -> Iterator[Finding]:
    for point, where in sheet.points.items():
        at = ("points", point)
        if isinstance(where, str):
            continue
        if "by" in where:
            states: dict[DocumentPath, str] = {(*at, s): s for s in where if s != "by"}
            yield from car.has_states((*at, "by"), where["by"], states)
        else:
            message = f"{point} does not say which input its node goes by"
            yield Finding("unknown-input", at, message, "Add by: INPUT.", on_key=True)


def _listed(at: DocumentPath, states: tuple[str, ...]) -> dict[DocumentPath, str]:
    return {(*at, index): state for index, state in enumerate(states)}


class _Car:
    """The inputs of a circuit, and the choices of a sheet that stand for their states."""

    def __init__(self, sheet: BenchSheet, model: CircuitModel) -> None:
        self._choices, self._inputs = sheet.choices, model.inputs

    def is_there(self, path: DocumentPath, name: str, on_key: bool = False) -> Iterator[Finding]:
        """The circuit has the input."""
        if name not in self._inputs:
            message, help = f"no input is called {name}", nearest(name, self._inputs)
            yield Finding("unknown-input", path, message, help, on_key=on_key)

    def has_states(
        self,
        path: DocumentPath,
        name: str,
        states: Mapping[DocumentPath, str],
        on_key: bool = False,
    ) -> Iterator[Finding]:
        """The input has these states; each state stands under its place."""
        yield from self.is_there(path, name, on_key)
        if name not in self._inputs:
            return
        known = self._inputs[name].states
        if known is None:
            message = f"{name} is measured and has no states"
            help = "Give a value or a range, where one can stand here."
            yield Finding("unknown-state", path, message, help, on_key=on_key)
            return
        for place, state in states.items():
            if state not in known:
                message = f"{name} has no state {state}"
                is_key = place[-1] == state
                help = nearest(state, known)
                yield Finding("unknown-state", place, message, help, on_key=is_key)

    def has_values(
        self, path: DocumentPath, name: str, values: Mapping[DocumentPath, Expression]
    ) -> Iterator[Finding]:
        """The input is measured, and these are values of it."""
        yield from self.is_there(path, name)
        if name not in self._inputs:
            return
        quantity = self._inputs[name].quantity
        if quantity is None:
            message = f"{name} has states and no value"
            yield Finding("unknown-state", path, message, "Use is, with its states.")
            return
        for place, value in values.items():
            wrong = misfit(value, quantity, {NORMAL: quantity})
            if wrong:
                yield Finding("bench-amount", place, wrong, write(quantity))

    def has_shares(self, path: DocumentPath, name: str) -> Iterator[Finding]:
        """A share of a value of the input says something."""
        known = self._inputs.get(name)
        if known is not None and known.quantity is Quantity.TEMPERATURE:
            message = "a share of a temperature says nothing"
            yield Finding("sight-fits", path, message, "Take about out, or move the edge.")

    def is_set(
        self, at: DocumentPath, written: Mapping[str, Expression], with_choices: bool = False
    ) -> Iterator[Finding]:
        """Each input of a set-up is given a state or a value of its own."""
        for name, value in written.items():
            path = (*at, name)
            if name not in self._inputs or self._inputs[name].states is None:
                yield from self._is_value(path, name, value)
            elif value.text not in (self._inputs[name].states or ()):
                yield from self._is_choice(path, name, value.text, with_choices)

    def _is_value(self, path: DocumentPath, name: str, value: Expression) -> Iterator[Finding]:
        yield from self.is_there(path, name, on_key=True)
        quantity = self._inputs[name].quantity if name in self._inputs else None
        wrong = misfit(value, quantity) if quantity else ""
        if quantity and wrong and value.names:
            message = f"{name} is measured; {value.text} is no value of it"
            yield Finding("unknown-state", path, message, write(quantity))
        elif quantity and wrong:
            yield Finding("bench-amount", path, wrong, write(quantity))

    def _is_choice(
        self, path: DocumentPath, name: str, text: str, with_choices: bool
    ) -> Iterator[Finding]:
        """What is no state of the input may still be a choice of it."""
        choice = self._choices.get(text)
        states = self._inputs[name].states or ()
        message, help = f"{name} has no state {text}", nearest(text, states)
        if choice and choice.input not in self._inputs:
            return  # told at the choice
        if choice and choice.input != name:
            message = f"{text} is a choice of {choice.input}, not of {name}"
        elif choice and not with_choices:
            message = f"{text} is a choice, and only a state can stand here"
        elif choice:
            return
        elif with_choices:
            own = [n for n, c in self._choices.items() if c.input == name]
            help = nearest(text, (*states, *own))
        yield Finding("unknown-state", path, message, help)
