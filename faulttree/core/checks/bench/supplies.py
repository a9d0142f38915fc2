"""supply-order: the weak battery of a sheet is stronger than the one under full charge."""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet, Feed
from faulttree.core.checks.finding import DocumentPath, Finding
from faulttree.core.circuit.amounts import si
from faulttree.core.expression import ExpressionError
from faulttree.core.uncertain import CannotWorkOut
from faulttree.core.units import Quantity


def check(sheet: BenchSheet) -> Iterator[Finding]:
    """The readings of all other batteries lie between those of the weak and the charging one."""
    weak, charging = sheet.supplies.weak, sheet.supplies.charging
    for key, low, high in (
        ("battery", weak.battery, charging.battery),
        ("running", weak.running, charging.running),
    ):
        try:
            yield from _order(("supplies", "weak", key), low, high)
        except (ExpressionError, CannotWorkOut):
            continue  # another rule tells it


def _order(at: DocumentPath, weak: Feed, charging: Feed) -> Iterator[Finding]:
    is_higher = si(weak.emf, Quantity.VOLTAGE) > si(charging.emf, Quantity.VOLTAGE)
    least, most = (si(each.internal, Quantity.RESISTANCE) for each in (weak, charging))
    is_stiffer = 0.0 < least < most
    if is_higher or is_stiffer:
        a, b = (weak.emf, charging.emf) if is_higher else (weak.internal, charging.internal)
        what = "EMF" if is_higher else "internal resistance"
        message = f"the weak battery has the better {what}: {a.text}, charging {b.text}"
        yield Finding(
            "supply-order",
            (*at, "emf" if is_higher else "internal"),
            message,
            "Weak has the lowest EMF and the highest internal resistance of the three.",
            severity="warning",
        )
