"""Faults of a circuit: which there are, how likely each is, and how large it may be."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import IntEnum

from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.document import CircuitModel, Short
from faulttree.core.circuit.edits import SHORT_OHM, Between, Edit
from faulttree.core.circuit.elements import Element, FaultEntry, Intermittent
from faulttree.core.circuit.fault_kinds import FaultKind, Rails, kinds_of
from faulttree.core.units import Quantity

USUAL_CHANCE = 0.3
"""How often an intermittent fault is there when looked for, unless the document says."""


class Severity(IntEnum):
    """How bad a fault of unknown size is; an index into its sizes."""

    MILD = 0
    TYPICAL = 1
    SEVERE = 2


@dataclass(frozen=True, slots=True)
class Comes:
    """A fault that comes and goes: what brings it on, and the share of looks that find it."""

    trigger: str
    chance: float


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that may be wrong.

    Attributes:
        id: element, point, kind: “feed-wire.open”. Shorts between wires: “shorts.” and their id.
        element: id of the element, or empty for a short between wires.
        part: what is replaced or mended: words for people.
        words: what is wrong.
        weight: how likely it is beside the others; not a probability.
        sizes: mild, typical, severe, or fewer [SI, ohm where not said]; empty without size.
        quantity: what the sizes are, or None.
        comes: where it is intermittent, how.
        make: what it does at a size.
    """

    id: str
    element: str
    part: str
    words: str
    weight: float
    sizes: tuple[float, ...]
    quantity: Quantity | None
    comes: Comes | None
    make: Callable[[float], tuple[Edit, ...]]

    @property
    def has_size(self) -> bool:
        """Whether how bad it is makes a difference."""
        return bool(self.sizes)

    def at(self, severity: Severity = Severity.TYPICAL) -> "Injected":
        """The fault at a severity; one without size is the same at each."""
        size = self.size_at(severity)
        return Injected(self.id, self.make(1.0)) if size is None else self.sized(size)

    def size_at(self, severity: "Severity") -> float | None:
        """How large it is at a severity [SI]; None for one without size."""
        if not self.sizes:
            return None
        return self.sizes[round(severity / 2 * (len(self.sizes) - 1))]

    def sized(self, size: float) -> "Injected":
        """The fault at a size of one's own [SI]."""
        return Injected(f"{self.id}={size:g}", self.make(size))


@dataclass(frozen=True, slots=True)
class Injected:
    """A fault as it is put into the circuit; `edits` may also be written by hand."""

    id: str
    edits: tuple[Edit, ...]


def faults_of(model: CircuitModel) -> tuple[Fault, ...]:
    """Every fault of a circuit, in the order of the document; those of weight 0 are left out.

    Raises:
        ExpressionError: a size is of the wrong kind; the document was not checked.
    """
    found = (*_of_elements(model), *_of_shorts(model))
    return tuple(f for f in found if f.weight > 0)


def rails_of(model: CircuitModel) -> Rails:
    """Reference and battery positive of a circuit."""
    return Rails(model.reference, model.battery.plus if model.battery else None)


def _of_elements(model: CircuitModel) -> Iterator[Fault]:
    rails = rails_of(model)
    for name, element in model.elements.items():
        for kind in kinds_of(name, element, rails):
            yield _fault(name, element, kind, element.faults.get(kind.id, FaultEntry()))


def _fault(name: str, element: Element, kind: FaultKind, entry: FaultEntry) -> Fault:
    words = element.words_for(name)
    return Fault(
        id=f"{name}.{kind.id}",
        element=name,
        part=element.part_for(name),
        words=f"{words}: {kind.words}",
        weight=kind.weight if entry.weight is None else entry.weight,
        sizes=sizes_of(entry, kind.sizes, kind.quantity),
        quantity=kind.quantity,
        comes=comes(entry, kind.trigger),
        make=kind.edits,
    )


def _of_shorts(model: CircuitModel) -> Iterator[Fault]:
    for name, short in model.shorts.items():
        words = short.words or f"short between {short.between[0]} and {short.between[1]}"
        yield Fault(
            id=f"shorts.{name}",
            element="",
            part=words,
            words=words,
            weight=0.3 if short.weight is None else short.weight,
            sizes=sizes_of(short, (), Quantity.RESISTANCE),
            quantity=Quantity.RESISTANCE if short.sizes else None,
            comes=comes(short, ""),
            make=_short(short),
        )


def _short(short: Short) -> Callable[[float], tuple[Edit, ...]]:
    has_size = short.sizes is not None
    return lambda ohm: (Between(*short.between, ohm if has_size else SHORT_OHM),)


def sizes_of(
    entry: FaultEntry, usual: tuple[float, ...], quantity: Quantity | None
) -> tuple[float, ...]:
    """The sizes of a fault [SI]: as the document has them, else the usual ones."""
    if entry.sizes is None or quantity is None:
        return usual
    return tuple(si(size, quantity) for size in entry.sizes)


def comes_of(written: Intermittent | None) -> Comes | None:
    """What a document says of how a fault comes and goes."""
    if written is None:
        return None
    return Comes(written.trigger, si(written.chance, Quantity.RATIO))


def comes(entry: FaultEntry, trigger: str) -> Comes | None:
    """How a fault comes and goes: as the document has it, else by what its kind is prone to."""
    if entry.intermittent:
        return comes_of(entry.intermittent)
    return Comes(trigger, USUAL_CHANCE) if trigger else None
