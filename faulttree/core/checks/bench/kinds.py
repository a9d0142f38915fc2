"""Amounts of a bench sheet: whether one is of the kind it must be, and what to write."""

from collections.abc import Mapping

from faulttree.core.bench.document import NORMAL
from faulttree.core.expression import Expression, ExpressionError
from faulttree.core.uncertain import CannotWorkOut, exactly
from faulttree.core.units import Quantity, UnitSystem, display_units


def misfit(
    value: Expression, quantity: Quantity, names: Mapping[str, Quantity] | None = None
) -> str:
    """Why an amount cannot be read as a quantity, in one sentence; empty where it can."""
    known = names or {}
    if NORMAL in value.names and NORMAL not in known:
        return f"“{value.text}” compares with normal, and there is none here"
    try:
        value.evaluator(quantity, known)({name: exactly(1.0) for name in known})
    except (ExpressionError, CannotWorkOut) as error:
        return str(error).replace("neither an earlier step nor a value under needs", "no amount")
    return ""


def write(quantity: Quantity) -> str:
    """How to mend it."""
    unit = display_units(quantity, UnitSystem.METRIC)[0].symbol
    return f"Write {quantity.words}, for example {f'10 {unit}'.strip()}."
