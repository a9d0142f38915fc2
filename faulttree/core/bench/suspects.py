"""What may be wrong with the car on the bench, in every form and at every supply."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from faulttree.core.bench.document import BenchSheet
from faulttree.core.bench.setting import Inputs, inputs_si
from faulttree.core.circuit.cases import FaultSet
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.faults import Comes, Severity, comes_of, faults_of
from faulttree.core.circuit.loop_faults import faults_of_loop
from faulttree.core.units import Quantity

SUPPLIES = ("weak", "normal", "charging")
"""The three batteries, by their names in a bench sheet."""


@dataclass(frozen=True, slots=True)
class Form:
    """A suspect as it is put into the car.

    Attributes:
        severity: how bad it is, or None where it has no size.
        size, quantity: how bad in figures [SI].
        injected: what it changes in the circuit.
        inputs: what it changes in the car's inputs.
    """

    severity: Severity | None = None
    size: float | None = None
    quantity: Quantity | None = None
    injected: FaultSet = ()
    inputs: Inputs = field(default_factory=dict)

    @property
    def words(self) -> str:
        """How bad it is, in a word; empty where it has no size."""
        return self.severity.name.lower() if self.severity is not None else ""


@dataclass(frozen=True, slots=True)
class Suspect:
    """One thing that may be wrong: a fault of the circuit, or a situation of the car.

    Attributes:
        id: as in the model, or the situation's.
        part: what is replaced or mended.
        words: what is wrong.
        weight: how likely it is beside the others; not a probability.
        comes: where it is intermittent, how.
        forms: mild, typical and severe, or the one form it has.
    """

    id: str
    part: str
    words: str
    weight: float
    comes: Comes | None
    forms: tuple[Form, ...]

    def is_named_by(self, names: Iterable[str]) -> bool:
        """Whether it, or the element it belongs to, is among the names."""
        return any(self.id == name or self.id.startswith(f"{name}.") for name in names)


@dataclass(frozen=True, slots=True)
class Row:
    """One car on the bench: a suspect in one form, or a healthy car, at one supply.

    Attributes:
        suspect: what is wrong; None for a healthy car.
        form: how bad it is.
        supply: which battery.
        weight: the suspect's weight over the number of its rows; 0 for a healthy car.
    """

    suspect: Suspect | None
    form: Form
    supply: str
    weight: float


def suspects_of(model: CircuitModel, sheet: BenchSheet) -> tuple[Suspect, ...]:
    """Every suspect: faults in the order of the model, those of its loop, then situations."""
    return (*_faults(model), *_of_loop(model), *_situations(model, sheet))


def rows_of(suspects: Iterable[Suspect], supplies: tuple[str, ...] = SUPPLIES) -> tuple[Row, ...]:
    """Every car to try: the healthy ones first, one for each supply."""
    healthy = [Row(None, Form(), supply, 0.0) for supply in supplies]
    ill = [
        Row(suspect, form, supply, suspect.weight / (len(suspect.forms) * len(supplies)))
        for suspect in suspects
        for form in suspect.forms
        for supply in supplies
    ]
    return (*healthy, *ill)


def chosen(suspects: Iterable[Suspect], names: Iterable[str]) -> tuple[Suspect, ...]:
    """The suspects that some names stand for."""
    wanted = tuple(names)
    return tuple(s for s in suspects if s.is_named_by(wanted))


def parts_of(suspects: Iterable[Suspect]) -> tuple[str, ...]:
    """The parts of some suspects, each once."""
    return tuple(dict.fromkeys(s.part for s in suspects))


def _faults(model: CircuitModel) -> Iterator[Suspect]:
    for fault in faults_of(model):
        severities: tuple[Severity | None, ...] = (None,)
        if fault.has_size:
            severities = _SEVERITIES[len(fault.sizes)]
        forms = tuple(
            Form(
                severity,
                fault.size_at(severity) if severity is not None else None,
                fault.quantity,
                (fault.at(severity or Severity.MILD),),
            )
            for severity in severities
        )
        yield Suspect(fault.id, fault.part, fault.words, fault.weight, fault.comes, forms)


_SEVERITIES: Mapping[int, tuple[Severity, ...]] = {
    1: (Severity.TYPICAL,),
    2: (Severity.MILD, Severity.SEVERE),
    3: tuple(Severity),
}
"""The severities that a fault with so many sizes has."""


def _of_loop(model: CircuitModel) -> Iterator[Suspect]:
    for fault in faults_of_loop(model.loop) if model.loop else ():
        sizes = zip(_SEVERITIES[len(fault.sizes)], fault.sizes, strict=True) if fault.sizes else ()
        forms = tuple(
            Form(severity, size, Quantity.RATIO, inputs=fault.at(size)) for severity, size in sizes
        )
        whole = (Form(inputs=fault.at()),)
        yield Suspect(fault.id, fault.part, fault.words, fault.weight, fault.comes, forms or whole)


def _situations(model: CircuitModel, sheet: BenchSheet) -> Iterator[Suspect]:
    for name, each in sheet.situations.items():
        form = Form(inputs=inputs_si(model, each.inputs))
        yield Suspect(
            name, each.part, each.words, each.weight, comes_of(each.intermittent), (form,)
        )
