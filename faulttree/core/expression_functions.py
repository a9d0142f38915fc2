"""The functions of expressions that take certain quantities: saturation, dew point, windows.

Which car they are worked out for is not written in the expression: they go by the vehicle data
`refrigerant` and `altitude`.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from faulttree.core.expression_car import (
    absolute,
    dew_point,
    saturation,
    saturation_of_gauge,
    saturation_pressure,
)
from faulttree.core.expression_parser import ExpressionError
from faulttree.core.expression_values import (
    ALTITUDE,
    REFRIGERANT,
    Evaluate,
    Typings,
    kinds_in_words,
)
from faulttree.core.expression_windows import GAUGE_WINDOWS, VENT_WINDOWS
from faulttree.core.uncertain import Uncertain
from faulttree.core.units import Quantity

_Q = Quantity


class Form(NamedTuple):
    """One way to read a function.

    Attributes:
        takes: the quantities of its operands.
        gives: the quantity of its result.
        work: works it out from the values and its operands [SI].
    """

    takes: tuple[Quantity, ...]
    gives: Quantity
    work: Callable[..., Uncertain]


@dataclass(frozen=True, slots=True)
class Function:
    """A function of certain quantities.

    Attributes:
        takes: its operands as the documentation names them.
        forms: how it can be read; the first that fits is taken.
        goes_by: the vehicle data it goes by.
    """

    takes: tuple[str, ...]
    forms: tuple[Form, ...]
    goes_by: frozenset[str] = frozenset()


def call_typings(name: str, operands: Sequence[Typings]) -> Typings:
    """Every quantity that a call can be read as.

    Raises:
        ExpressionError: there is no such function, or it does not take these operands.
    """
    function = FUNCTIONS.get(name)
    if function is None:
        raise ExpressionError(f"no function is called {name}")
    if len(operands) != len(function.takes):
        wanted = f"{name}({', '.join(function.takes)})"
        raise ExpressionError(f"{name} is written {wanted}; {len(operands)} are given")
    found: Typings = {}
    for form in function.forms:
        if all(q in operand for q, operand in zip(form.takes, operands, strict=True)):
            parts = [operand[q] for q, operand in zip(form.takes, operands, strict=True)]
            found.setdefault(form.gives, _called(form.work, parts))
    if not found:
        raise ExpressionError(_misfit(name, function, operands))
    return found


def goes_by(name: str) -> frozenset[str]:
    """The vehicle data that a function goes by; none for one that is not known."""
    return FUNCTIONS[name].goes_by if name in FUNCTIONS else frozenset()


def _called(work: Callable[..., Uncertain], parts: Sequence[Evaluate]) -> Evaluate:
    return lambda values: work(values, *(part(values) for part in parts))


def _misfit(name: str, function: Function, operands: Sequence[Typings]) -> str:
    """The first operand that no form of the function takes."""
    for place, operand in enumerate(operands):
        wanted = {form.takes[place] for form in function.forms}
        if wanted.isdisjoint(operand):
            number = ("", f" as value {place + 1}")[len(operands) > 1]
            return f"{name} takes {kinds_in_words(wanted)}{number}, not {kinds_in_words(operand)}"
    raise AssertionError("every operand fits a form")


_CAR = frozenset((REFRIGERANT, ALTITUDE))
_AIR = (_Q.TEMPERATURE, _Q.RATIO)

FUNCTIONS: Mapping[str, Function] = {
    "saturation": Function(
        ("pressure",),
        (
            Form((_Q.GAUGE_PRESSURE,), _Q.TEMPERATURE, saturation_of_gauge),
            Form((_Q.ABSOLUTE_PRESSURE,), _Q.TEMPERATURE, saturation),
        ),
        _CAR,
    ),
    "saturation-pressure": Function(
        ("temperature",),
        (Form((_Q.TEMPERATURE,), _Q.GAUGE_PRESSURE, saturation_pressure),),
        _CAR,
    ),
    "absolute": Function(
        ("pressure",),
        (Form((_Q.GAUGE_PRESSURE,), _Q.ABSOLUTE_PRESSURE, absolute),),
        frozenset((ALTITUDE,)),
    ),
    "dew-point": Function(("temperature", "humidity"), (Form(_AIR, _Q.TEMPERATURE, dew_point),)),
    **{
        name: Function(("temperature",), (Form((_Q.TEMPERATURE,), _Q.GAUGE_PRESSURE, work),), _CAR)
        for name, work in GAUGE_WINDOWS.items()
    },
    **{
        name: Function(("temperature", "humidity"), (Form(_AIR, _Q.TEMPERATURE, work),))
        for name, work in VENT_WINDOWS.items()
    },
}
"""Every function by its name; docs/tree-format.md lists them."""
