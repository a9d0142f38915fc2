"""vehicle-value, vehicle-point: a sheet's value is no number with a unit; a point says nothing."""

from collections.abc import Iterator

from faulttree.core.checks.finding import Finding
from faulttree.core.expression import ExpressionError
from faulttree.core.tree import Tree
from faulttree.core.uncertain import CannotWorkOut
from faulttree.core.units import Quantity
from faulttree.core.vehicle import VehicleSheet


def check_sheet(sheet: VehicleSheet) -> list[Finding]:
    """Values that depend on nothing else, and points that say something."""
    return [*_values(sheet), *_points(sheet)]


def check_fit(tree: Tree, sheet: VehicleSheet) -> list[Finding]:
    """Values of the sheet that are not of the quantity a tree asks for."""
    found: list[Finding] = []
    for name, need in tree.needs.values.items():
        if name in sheet.values:
            try:
                sheet.values[name].evaluator(need.quantity, {})
            except ExpressionError as error:
                help = f"The tree {tree.id} asks for {need.quantity.words}."
                found.append(Finding("vehicle-value", ("values", name), str(error), help))
    return found


def _values(sheet: VehicleSheet) -> Iterator[Finding]:
    for name, value in sheet.values.items():
        try:
            kinds = value.quantities({})
            for kind in kinds:
                value.evaluator(kind, {})({})
        except (ExpressionError, CannotWorkOut) as error:
            yield Finding("vehicle-value", ("values", name), str(error), "Write a plain value.")
            continue
        if kinds <= {Quantity.RATIO, Quantity.COUNT} and not value.text.endswith("%"):
            yield Finding(
                "vehicle-value",
                ("values", name),
                f"{value.text} has no unit",
                "Write the unit, for example 10 A.",
                severity="warning",
            )


def _points(sheet: VehicleSheet) -> Iterator[Finding]:
    for name, point in sheet.points.items():
        if not point.words:
            yield Finding(
                "vehicle-point",
                ("points", name),
                f"{name} does not say where it is",
                "Give connector and cavity, or where.",
                on_key=True,
            )
