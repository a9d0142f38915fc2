"""Faults in words for the expected readings: their sizes, what is alike, what comes and goes."""

from collections.abc import Callable, Iterable, Iterator, Sequence

from faulttree.core.bench.suspects import Form, Suspect
from faulttree.core.circuit.attached import Flag
from faulttree.core.figures import show
from faulttree.core.proof.expected import Expected
from faulttree.core.units import UnitSystem
from faulttree.render.line import Line

Cars = Sequence[Expected]
"""What some cars on the bench show at one step."""

_FLAGS = {
    Flag.FUSE_BLOWN: "a fuse blows",
    Flag.UNSTABLE: "it swings",
    Flag.FLOATING: "nothing holds the wire",
    Flag.METER_FUSE: "the meter's own fuse blows",
}
"""What is said beside a number, or in place of one."""


def split(cars: Cars, is_alike: Callable[[Expected, Expected], bool]) -> tuple[Cars, Cars]:
    """Cars with a fault: those that no battery tells from the healthy car, and the rest."""
    healthy = {car.row.supply: car for car in cars if car.row.suspect is None}
    alike: list[Expected] = []
    other: list[Expected] = []
    for _, there in by_suspect(cars):
        for _, form in by_form(there):
            is_same = all(is_alike(car, healthy[car.row.supply]) for car in form)
            (alike if is_same else other).extend(form)
    return alike, other


def by_suspect(cars: Iterable[Expected]) -> Iterator[tuple[Suspect, Cars]]:
    """The cars of each fault, in the order of the circuit model."""
    found: dict[str, list[Expected]] = {}
    for car in cars:
        if car.row.suspect is not None:
            found.setdefault(car.row.suspect.id, []).append(car)
    for there in found.values():
        assert there[0].row.suspect is not None
        yield there[0].row.suspect, there


def by_form(cars: Cars) -> list[tuple[Form, Cars]]:
    """The cars of one fault by how bad it is, mild ones first."""
    found: dict[int, list[Expected]] = {}
    for car in cars:
        found.setdefault(id(car.row.form), []).append(car)
    return [(there[0].row.form, there) for there in found.values()]


def named(cars: Cars, units: UnitSystem | None = None) -> str:
    """Faults in words, those of one element together.

    Args:
        cars: cars with these faults.
        units: to give sizes where not all sizes of a fault are among the cars; None gives none.
    """
    found: dict[str, dict[str, None]] = {}
    for suspect, there in by_suspect(cars):
        forms = by_form(there)
        sizes = ""
        if units is not None and len(forms) < len(suspect.forms):
            sizes = ", ".join(size(form, units) for form, _ in forms)
        element, fault = halves(suspect.words)
        found.setdefault(element, {})[fault if not sizes else f"{fault} ({sizes})"] = None
    return "; ".join(of_element(element, faults) for element, faults in found.items())


def halves(words: str) -> tuple[str, str]:
    """The element and what is wrong with it; no element where the words name none."""
    element, colon, fault = words.partition(": ")
    return (element, fault) if colon else ("", words)


def of_element(element: str, faults: Iterable[str]) -> str:
    """Faults with the element they are of: `relay: coil open, welded`; without one, as they are."""
    return f"{element}: {', '.join(faults)}" if element else "; ".join(faults)


def size(form: Form, units: UnitSystem) -> str:
    """How bad a fault is in figures; empty where it has no size."""
    if form.size is None or form.quantity is None:
        return ""
    return show(form.size, form.quantity, units)


def said(cars: Cars) -> str:
    """What must be said of readings beside their numbers."""
    flags = 0
    for car in cars:
        flags |= car.flags
    return ", ".join(words for flag, words in _FLAGS.items() if flags & flag)


def closing_lines(alike: Cars, other: Cars, units: UnitSystem) -> Iterator[Line]:
    """What this step cannot tell from a healthy car, and what comes and goes."""
    if alike:
        yield Line("As on a healthy car", named(alike, units))
    if any(car.row.suspect is not None and car.row.suspect.comes for car in other):
        yield Line(
            "Note", "A fault that comes and goes reads as on a healthy car while it is away."
        )
