"""Faults of unknown size: on a grid of sizes, so that a cell between two stands for all of them."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from faulttree.core.bench.document import BenchSheet
from faulttree.core.bench.suspects import Form, Suspect, suspects_of
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.edits import Series
from faulttree.core.circuit.faults import Fault, faults_of
from faulttree.core.circuit.loop_faults import FaultOfLoop, faults_of_loop
from faulttree.core.units import Quantity

POINTS, MOST_POINTS = 9, 25
"""Fewest and most sizes of a fault on the grid."""
STEP = 1.7
"""How far two sizes on the grid may be apart, as a factor, so that what one size shows and no other
does is not stepped over."""
BEYOND = 2.0
"""How far beyond mild and severe the grid goes, as a factor; a real fault need not stop there."""
AS_GOOD_AS_OPEN = 1000.0
"""A joint that adds resistance may be open altogether, which authors do not list beside a severe
size that does the same: so many times the severe one is the last size of it."""


@dataclass(frozen=True, slots=True)
class Cell:
    """A suspect with its size between two forms of the grid; one form without a size.

    Attributes:
        suspect: index of the suspect.
        forms: indexes of its forms at the ends; two suspects at once have four.
    """

    suspect: int
    forms: tuple[int, ...]


def refined(model: CircuitModel, sheet: BenchSheet) -> tuple[Suspect, ...]:
    """The suspects of a bench with their sizes on a grid, in the same order."""
    faults = {fault.id: fault for fault in faults_of(model) if fault.has_size}
    of_loop = {f.id: f for f in faults_of_loop(model.loop) if f.sizes} if model.loop else {}
    forms = {name: tuple(_forms(fault)) for name, fault in faults.items()}
    forms |= {name: tuple(_forms_of_loop(fault)) for name, fault in of_loop.items()}
    return tuple(
        replace(suspect, forms=forms.get(suspect.id, suspect.forms))
        for suspect in suspects_of(model, sheet)
    )


def cells_of(suspects: tuple[Suspect, ...]) -> tuple[Cell, ...]:
    """The cells of all suspects, in their order."""
    return tuple(cell for index, suspect in enumerate(suspects) for cell in _cells(index, suspect))


def _cells(index: int, suspect: Suspect) -> Iterator[Cell]:
    last = len(suspect.forms) - 1
    if last == 0:
        yield Cell(index, (0,))
    for low in range(last):
        yield Cell(index, (low, low + 1))


def _forms(fault: Fault) -> Iterator[Form]:
    sizes = grid(fault.sizes)
    if sizes[-1] > sizes[0] and any(isinstance(e, Series) for e in fault.make(sizes[-1])):
        sizes = (*sizes, max(fault.sizes) * AS_GOOD_AS_OPEN)
    for size in sizes:
        yield Form(None, size, fault.quantity, (fault.sized(size),))


def _forms_of_loop(fault: FaultOfLoop) -> Iterator[Form]:
    sizes = grid(fault.sizes) if len(fault.sizes) > 1 else fault.sizes
    for size in dict.fromkeys(min(size, fault.most) for size in sizes):
        yield Form(None, size, Quantity.RATIO, inputs=fault.at(size))


def grid(sizes: tuple[float, ...]) -> tuple[float, ...]:
    """Sizes from mild to severe and beyond both, evenly in their logarithm where all are positive.

    Sizes of another kind (a charge down to nothing, a shift either way) go evenly from the first to
    the last.

    Args:
        sizes: of the fault, mild first [SI].
    """
    first, last = sizes[0], sizes[-1]
    if len(sizes) == 1:
        first, last = first / BEYOND, last * BEYOND
    if min(sizes) > 0.0 and len(sizes) > 1 and max(sizes) / min(sizes) >= BEYOND:
        up = BEYOND if last > first else 1 / BEYOND
        low, high = math.log(first / up), math.log(last * up)
        points = math.ceil(abs(high - low) / math.log(STEP)) + 1
        return tuple(math.exp(v) for v in _even(low, high, min(max(points, POINTS), MOST_POINTS)))
    return tuple(_even(first, last, POINTS))


def _even(first: float, last: float, points: int) -> Iterator[float]:
    return (first + i / (points - 1) * (last - first) for i in range(points))
