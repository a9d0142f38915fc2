"""The bench sheet: how the tests of a tree are done on a circuit, and what each verdict names."""

from typing import Annotated, Any, Literal

from pydantic import Field, Strict, model_validator

from faulttree.core.circuit.amounts import FixedOhms, FixedSeconds, FixedShare, FixedVolts
from faulttree.core.circuit.elements import Intermittent, Weight
from faulttree.core.document import Document, Id, Line, Minutes, Text, Version
from faulttree.core.expression import Expression

Name = Annotated[str, Strict(), Field(pattern=r"^[a-z][a-z0-9]*([-.][a-z0-9]+)*$", max_length=120)]
"""An element, a part of one, a single fault (`feed-wire.open`) or a situation."""
Names = Annotated[tuple[Name, ...], Field(min_length=1)]
"""One name or more."""
NORMAL = "normal"
"""The name that stands for what the same look shows on the car without the fault."""
Sights = tuple["Sight", ...]
"""What is seen; all of them hold."""


class Sight(Document):
    """One thing seen of a car: see docs/bench-format.md."""

    current: Name | None = None
    voltage: tuple[Id, Id] | None = None
    light: Name | None = None
    pulls: Name | None = None
    reads: Name | None = None
    input: Id | None = None
    blown: Name | None = None
    faulty: tuple[Name, ...] | None = None
    any: Sights | None = None
    all: Sights | None = None
    not_: Sights | None = None
    is_: tuple[Id, ...] = ()
    from_: Expression | None = None
    below: Expression | None = None
    about: FixedShare | None = None
    may_miss: bool = False
    at: dict[Id, Expression] = {}

    @model_validator(mode="after")
    def _complete(self) -> "Sight":
        subjects = [s for s in _SUBJECTS if getattr(self, s) is not None]
        if len(subjects) != 1:
            raise ValueError("needs one of " + ", ".join(s.rstrip("_") for s in _SUBJECTS))
        has_range = self.from_ is not None or self.below is not None
        subject = subjects[0]
        if subject in ("current", "voltage", "light") and (self.is_ or not has_range):
            raise ValueError(f"{subject} needs from or below")
        if subject in ("pulls", "reads") and (has_range or not self.is_):
            raise ValueError(f"{subject} needs is")
        if subject == "input" and bool(self.is_) == has_range:
            raise ValueError("input needs is, or from and below")
        if subject in ("blown", "faulty", "any", "all", "not_") and (has_range or self.is_):
            raise ValueError(f"{subject.rstrip('_')} has no range and no state")
        return self


_SUBJECTS = (
    "current", "voltage", "light", "pulls", "reads", "input", "blown", "faulty",
    "any", "all", "not_",
)  # fmt: skip


class Feed(Document):
    """A battery as it stands in for the model's: EMF behind an internal resistance."""

    emf: FixedVolts
    internal: FixedOhms


class BatteryState(Document):
    """One of the three batteries: with the engine stopped or cranking, and with it running."""

    battery: Feed
    running: Feed


def _usual(stopped: tuple[str, str], running: tuple[str, str]) -> Any:
    """As it would be written in a sheet."""
    feeds = [{"emf": emf, "internal": internal} for emf, internal in (stopped, running)]
    return dict(zip(("battery", "running"), feeds, strict=True))


USUAL_SUPPLIES = {
    "weak": _usual(("12.5 V", "40 mohm"), ("12.6 V", "30 mohm")),
    "normal": _usual(("12.65 V", "10 mohm"), ("13.8 V", "20 mohm")),
    "charging": _usual(("12.75 V", "8 mohm"), ("14.5 V", "15 mohm")),
}
"""Batteries that most cars are met with: an aged one with a tired generator, a good one, a full one
under full charge. Common practice, no source."""


class Supplies(Document):
    """The three batteries that everything is tried with; what is left out is as usual."""

    weak: BatteryState
    normal: BatteryState
    charging: BatteryState

    @model_validator(mode="before")
    @classmethod
    def _filled(cls, written: Any) -> Any:
        return {**USUAL_SUPPLIES, **written} if isinstance(written, dict) else written


SupplyName = Literal["weak", "normal", "charging"]
"""One of the three batteries."""


def _usual_supplies() -> Supplies:
    return Supplies.model_validate({})


class Choice(Document):
    """A position picked by what is seen: the first in which all sights hold, else the last."""

    input: Id
    of: Annotated[tuple[Id, ...], Field(min_length=2)]
    where: Annotated[Sights, Field(min_length=1)]


class Load(Document):
    """A load joined to the circuit for a test."""

    between: tuple[Id, Id]
    ohm: FixedOhms


class SetOnCar(Document):
    """How the car is set for a look: inputs, leads, loads, and what is unplugged."""

    inputs: dict[Id, Expression] = {}
    bridges: tuple[tuple[Id, Id], ...] = ()
    loads: tuple[Load, ...] = ()
    removes: tuple[Name, ...] = ()
    elapsed: FixedSeconds | None = None


class Test(SetOnCar):
    """How one step of the tree is done on the circuit."""

    over: dict[Id, tuple[Id, ...]] = {}
    keep: Literal["highest", "lowest"] | None = None
    red: Id | None = None
    black: Id | None = None
    current: Name | None = None
    of: Id | None = None
    value: Expression | None = None
    adds: Expression | None = None
    outcomes: dict[Line, Sights] = {}
    unseen: tuple[Line, ...] = ()
    anything: bool = False
    needs: tuple[Id, ...] = ()
    minutes: Minutes | None = None
    disturbs: bool = False

    @model_validator(mode="after")
    def _one_way_to_read(self) -> "Test":
        if self.over and self.keep is None:
            raise ValueError("over needs keep: the one of the readings that counts")
        ways = [
            self.current is not None,
            self.of is not None,
            self.value is not None,
            bool(self.outcomes),
            self.anything,
            self.red is not None or self.black is not None,
        ]
        if sum(ways) > 1:
            raise ValueError("only one of leads, current, of, value, outcomes, anything")
        return self


class Fit(SetOnCar):
    """What a `do` step leaves fitted."""


class ProofOf(SetOnCar):
    """How the proof of a verdict is done on the circuit."""

    replaces: tuple[Name, ...] = ()
    holds: Sights = ()


class Verdict(Document):
    """The faults that a verdict is right for, and its proof."""

    names: Names
    proof: ProofOf | None = None


class Group(Document):
    """Parts that no test of the tree can tell apart."""

    faults: Names
    why: Text


class Access(Document):
    """Something made ready once, which several tests share: a cover off, a connector in reach."""

    words: Line
    minutes: Minutes


class Situation(Document):
    """A state of the car that no fault of an element describes."""

    words: Line
    part: Line
    weight: Weight = 1.0
    intermittent: Intermittent | None = None
    inputs: Annotated[dict[Id, Expression], Field(min_length=1)]


class BenchSheet(Document):
    """A whole bench sheet."""

    format: Literal["bench/1"]
    id: Id
    version: Version
    tree: Id
    circuit: Id
    note: Text | None = None
    supplies: Supplies = Field(default_factory=_usual_supplies)
    days: dict[SupplyName, dict[Id, Expression]] = {}
    posts: tuple[Id, Id] | None = None
    leads: dict[str, Id] = {}
    points: dict[Id, Id | dict[Id, Id]] = {}
    access: dict[Id, Access] = {}
    isolation: FixedShare = Expression.parse("95 %")
    complaint: Annotated[Sights, Field(min_length=1)]
    choices: dict[Id, Choice] = {}
    tests: dict[Id, Test]
    fits: dict[Id, Fit] = {}
    verdicts: dict[Id, Verdict]
    groups: dict[Id, Group] = {}
    situations: dict[Id, Situation] = {}
