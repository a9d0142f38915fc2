"""Sums done from a typed line, as on the command line."""

from faulttree.core.calc.answered import Answered, Found, answered
from faulttree.core.calc.registry import find_sum
from faulttree.core.calc.typed import complete, inputs_of
from faulttree.core.units import UnitSystem


def done(typed: str, system: UnitSystem = UnitSystem.METRIC) -> Answered:
    """Do a sum: its name, then its inputs."""
    name, _, line = typed.partition(" ")
    the_sum = find_sum(name)
    return answered(the_sum, complete(the_sum, inputs_of(the_sum, line, system), system))


def found(typed: str, system: UnitSystem = UnitSystem.METRIC) -> dict[str, Found]:
    """The results of a sum by name."""
    return {each.name: each for each in done(typed, system).found}


def value(typed: str, name: str = "") -> float:
    """One result [SI]; the first one without a name."""
    results = found(typed)
    return results[name or next(iter(results))].value
