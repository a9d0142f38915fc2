"""bench-amount, ideal-source: an amount is of another kind than it must be, or cannot be."""

from collections.abc import Iterator, Mapping

from faulttree.core.bench.document import NORMAL, BenchSheet, Sight
from faulttree.core.checks.bench.kinds import misfit, write
from faulttree.core.checks.bench.walks import sights_in
from faulttree.core.checks.finding import DocumentPath, Finding
from faulttree.core.circuit.amounts import Written, amounts_in, si
from faulttree.core.units import Quantity


def check(sheet: BenchSheet) -> Iterator[Finding]:
    """One finding for each amount that can be told without the tree and the circuit."""
    for written in amounts_in(sheet):
        if written.mark:
            yield from _fixed(written, written.mark.quantity)
    for path, sight in sights_in(sheet):
        quantity = _RANGES.get(_subject(sight))
        for key, edge in (("from", sight.from_), ("below", sight.below)):
            if edge is not None and quantity:
                wrong = misfit(edge, quantity, {NORMAL: quantity})
                if wrong:
                    yield Finding("bench-amount", (*path, key), wrong, write(quantity))


_RANGES: Mapping[str, Quantity] = {
    "current": Quantity.CURRENT,
    "voltage": Quantity.VOLTAGE,
    "light": Quantity.RATIO,
}


def _subject(sight: Sight) -> str:
    return next((name for name in _RANGES if getattr(sight, name) is not None), "")


def _fixed(written: Written, quantity: Quantity) -> Iterator[Finding]:
    wrong = misfit(written.value, quantity)
    if wrong:
        yield Finding("bench-amount", written.path, wrong, write(quantity))
    else:
        yield from _size(written.path, written.value.text, si(written.value, quantity))


def _size(path: DocumentPath, text: str, found: float) -> Iterator[Finding]:
    key = path[-1]
    if key in ("isolation", "about"):
        if not 0.0 <= found <= 1.0:
            message = f"{text} is no share of a whole"
            yield Finding("bench-amount", path, message, "Write 0 % to 100 %.")
    elif key == "internal" and found == 0.0:
        message = f"{text} makes an ideal source; in a loop its current would have no limit"
        yield Finding("ideal-source", path, message, "Give its resistance, for example 10 mohm.")
    elif found < 0.0 or (found == 0.0 and key != "elapsed"):
        message = f"{text} must be more than nothing"
        yield Finding("bench-amount", path, message, "Write a positive amount.")
