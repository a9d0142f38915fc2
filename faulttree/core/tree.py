"""The tree document: head, needs, steps. What it means is described in docs/tree-format.md."""

from collections.abc import Iterator, Mapping
from enum import StrEnum
from functools import cached_property
from typing import Annotated, Literal

from pydantic import Field, Strict, model_validator

from faulttree.core.document import Cycles, Date, Document, Id, Line, Minutes, Text, Version
from faulttree.core.expression import Expression
from faulttree.core.instruments import InstrumentClass
from faulttree.core.texts import placeholders
from faulttree.core.units import Quantity

AGAIN = "again"
"""The target that asks the same step once more."""
BATTERY_VOLTAGE = "battery-voltage"
BATTERY_AGE_LIMIT_S = 600.0
"""A battery voltage older than this is measured again [s]. Source: common practice."""
"""The name of the walk's own reference: battery positive post to negative post."""


class System(StrEnum):
    """Which part of the car a tree is about."""

    STARTING = "starting"
    CHARGING = "charging"
    LIGHTING = "lighting"
    BODY_ELECTRICAL = "body electrical"
    BLOWER = "blower"
    AIR_CONDITIONING = "air conditioning"
    HEATING = "heating"
    ENGINE_COOLING = "engine cooling"
    ENGINE_ELECTRICAL = "engine electrical"


class Speaks(StrEnum):
    """What a reading speaks for."""

    GOOD = "good"
    UNCLEAR = "unclear"
    FAULT = "fault"


class Engine(StrEnum):
    """State of the engine during a test."""

    STOPPED = "stopped"
    CRANKING = "cranking"
    IDLE = "idle"
    FAST_IDLE = "fast-idle"
    DRIVING = "driving"

    @property
    def words(self) -> str:
        """In running text."""
        return {"fast-idle": "at a fast idle", "idle": "idling"}.get(self.value, self.value)


class Change(Document):
    """One line of a tree's change list."""

    version: Version
    date: Date
    text: Text


class Confirm(Document):
    """How to see the complaint, and how to bring it on."""

    how: Text
    provoke: Annotated[tuple[Text, ...], Field(min_length=1)]


class NeededValue(Document):
    """A figure the vehicle sheet should give."""

    quantity: Quantity
    ask: Text


class NeededFact(Document):
    """Words the vehicle sheet should give."""

    ask: Text


class Needs(Document):
    """Vehicle data a tree uses; what the sheet lacks is asked for at the step that needs it."""

    points: dict[Id, Text] = {}
    values: dict[Id, NeededValue] = {}
    facts: dict[Id, NeededFact] = {}

    @property
    def names(self) -> frozenset[str]:
        """All names that texts may use."""
        return frozenset((*self.points, *self.values, *self.facts))


class SetUp(Document):
    """The conditions of a test."""

    key: Literal["out", "accessory", "run", "start"] | None = None
    engine: Engine
    load: Text | None = None
    connector: Text | None = None
    complaint: Literal["present", "absent", "any"]
    other: Text | None = None


class Exit(Document):
    """Where the walk goes when a step gives no answer."""

    go: Id
    advice: Text | None = None


class Plausible(Document):
    """What a point can show at all: outside, the walk asks once."""

    from_: Expression
    below: Expression


class Band(Document):
    """A range of readings with one meaning. It holds `from`, not `below`."""

    name: Line
    is_: Speaks
    from_: Expression | None = None
    below: Expression | None = None
    means: Text
    go: Id


class Outcome(Document):
    """One thing that may be seen, heard or felt."""

    name: Line
    is_: Speaks
    means: Text
    go: Id


class _Step(Document):
    title: Line
    cautions: tuple[Id, ...] = ()


class _Test(_Step):
    why: Text
    cannot: Exit


class _Probing(_Test):
    """What a test that touches the car has in common."""

    minutes: Minutes
    red_lead: Text | None = None
    black_lead: Text | None = None
    at: Text | None = None
    set_up: SetUp
    how: Text | None = None
    implausible: Exit


class _Banded(_Test):
    """What a step with bands has in common."""

    quantity: Quantity
    plausible: Plausible
    bands: Annotated[tuple[Band, ...], Field(min_length=2)]
    source: Text
    as_: Id | None = None
    other_test: Id | None = None
    implausible: Exit

    @cached_property
    def names_used(self) -> frozenset[str]:
        """Every name that its bands and sums refer to."""
        return frozenset().union(*(e.names for e in expressions(self)))

    @cached_property
    def car_data(self) -> frozenset[str]:
        """Names of the vehicle data that functions in its bands and sums go by."""
        return frozenset().union(*(e.car_data for e in expressions(self)))

    @cached_property
    def edges(self) -> tuple[Expression, ...]:
        """The edges between the bands, from low to high."""
        pairs = zip(self.bands, self.bands[1:], strict=False)
        found = (lower.below or upper.from_ for lower, upper in pairs)
        return tuple(edge for edge in found if edge is not None)


class Measure(_Banded, _Probing):
    """A reading with an instrument."""

    kind: Literal["measure"]
    with_: InstrumentClass


class Observe(_Probing):
    """Something seen, heard or felt, with or without an instrument."""

    kind: Literal["observe"]
    with_: InstrumentClass | None = None
    outcomes: Annotated[tuple[Outcome, ...], Field(min_length=2)]


class Do(_Test):
    """Something done to the car."""

    kind: Literal["do"]
    how: Text
    minutes: Minutes
    fits: dict[Id, Text] = {}
    removes: tuple[Id, ...] = ()
    go: Id
    implausible: Exit | None = None


class WorkOut(_Banded):
    """A value worked out from earlier readings."""

    kind: Literal["work-out"]
    value: Expression


class Prove(Document):
    """The bypass or substitution that proves a verdict before a part is sold."""

    how: Text
    holds: Text
    undo: Text
    fails: Exit


class Repair(Document):
    """One way to mend the fault."""

    name: Line
    part_made: Literal["yes", "no", "either"]
    gives: Text
    costs: Text
    limits: Text


class Verify(Document):
    """The proving run."""

    how: Text
    cycles: Cycles


class Conclude(_Step):
    """A verdict, or the plain statement that there is none."""

    kind: Literal["conclude"]
    result: Literal["fault", "no-fault-found", "protective", "refer", "unresolved"]
    finding: Text
    part: Line | None = None
    evidence: tuple[Id, ...] = ()
    cause: Text | None = None
    prove: Prove | None = None
    repairs: tuple[Repair, ...] = ()
    verify: Verify | None = None
    next: Text | None = None

    @model_validator(mode="after")
    def _complete(self) -> "Conclude":
        if self.result == "fault":
            wanted = ("part", "evidence", "cause", "prove", "repairs", "verify")
            missing = [w for w in wanted if not getattr(self, w)]
            if missing:
                raise ValueError(f"a fault verdict also needs {', '.join(missing)}")
        elif not self.next:
            raise ValueError("needs next: what to do next")
        return self

    @property
    def names_no_fault(self) -> bool:
        """Whether it says that there is none, or that none was found out."""
        return self.result in ("no-fault-found", "unresolved")


Step = Annotated[Measure | Observe | Do | WorkOut | Conclude, Field(discriminator="kind")]
"""One step of a tree."""
Answerable = Measure | Observe | Do | WorkOut
"""The steps that lead on to another one."""


def outcome_names(step: Measure | Observe | WorkOut) -> tuple[str, ...]:
    """The bands of a step, or what it may find, by name."""
    kinds = step.outcomes if isinstance(step, Observe) else step.bands
    return tuple(kind.name for kind in kinds)


class TreeHead(Document):
    """What can be known of a tree without its steps: enough to list and search it."""

    format: Literal["tree/1"]
    id: Id
    version: Version
    changes: Annotated[tuple[Change, ...], Field(min_length=1)]
    title: Annotated[str, Strict(), Field(min_length=1, max_length=80)]
    system: System
    complaint: Annotated[tuple[Text, ...], Field(min_length=1)]
    applies_to: Text
    not_for: Text | None = None
    instruments: Annotated[tuple[InstrumentClass, ...], Field(min_length=1)]
    circuit: Id | None = None
    cautions: tuple[Id, ...] = ()
    more_cautions: dict[Id, Text] = {}
    confirm: Confirm


class Tree(TreeHead):
    """A whole decision tree."""

    needs: Needs = Field(default_factory=Needs)
    sources: dict[Id, Text] = {}
    start: Id
    steps: Annotated[dict[Id, Step], Field(min_length=1)]

    @cached_property
    def following(self) -> Mapping[str, tuple[str, ...]]:
        """Step id to the steps it can lead to, in the order of its exits; unknown ones left out."""
        return {
            step_id: tuple(dict.fromkeys(t for _, t in exits(step) if t in self.steps))
            for step_id, step in self.steps.items()
        }

    @cached_property
    def placeholders(self) -> frozenset[str]:
        """Every {name} in its texts; the texts of `needs` are not looked at."""
        return frozenset(placeholders(self.model_dump_json(exclude={"needs"})))

    @cached_property
    def quantities(self) -> Mapping[str, Quantity]:
        """The quantity of every name an expression may use."""
        found: dict[str, Quantity] = {BATTERY_VOLTAGE: Quantity.VOLTAGE}
        found.update({name: value.quantity for name, value in self.needs.values.items()})
        for step_id, step in self.steps.items():
            if isinstance(step, Measure | WorkOut):
                found[step_id] = step.quantity
                if step.as_:
                    found.setdefault(step.as_, step.quantity)
        return found


def exits(step: Measure | Observe | Do | WorkOut | Conclude) -> Iterator[tuple[str, str]]:
    """Every (what leads there, target) of a step, without `again`."""
    if isinstance(step, Measure | WorkOut):
        yield from ((band.name, band.go) for band in step.bands)
        if step.other_test:
            yield "other test", step.other_test
    elif isinstance(step, Observe):
        yield from ((outcome.name, outcome.go) for outcome in step.outcomes)
    elif isinstance(step, Do):
        yield "done", step.go
    elif step.prove:
        yield "proof fails", step.prove.fails.go
    if not isinstance(step, Conclude):
        yield "cannot be done", step.cannot.go
        if step.implausible and step.implausible.go != AGAIN:
            yield "implausible", step.implausible.go


def expressions(step: Document) -> Iterator[Expression]:
    """Every expression of a step."""
    if isinstance(step, Measure | WorkOut):
        yield from (e for band in step.bands for e in (band.from_, band.below) if e is not None)
        yield step.plausible.from_
        yield step.plausible.below
    if isinstance(step, WorkOut):
        yield step.value
