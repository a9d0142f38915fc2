"""Where a computed walk stands: the step, and all that its way on depends on."""

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from faulttree.core.bench.fitted import Fitted
from faulttree.core.expression_values import Values
from faulttree.core.proof.live import Live, needs_battery
from faulttree.core.tree import BATTERY_AGE_LIMIT_S
from faulttree.core.uncertain import Uncertain


class Mode(StrEnum):
    """Whether the fault is there while the car is tested; absent: a healthy car."""

    PRESENT = "present"
    ABSENT = "absent"
    COMES_BACK = "coming back"


@dataclass(frozen=True, slots=True)
class Known:
    """A value that later steps may refer to.

    Attributes:
        source: what it comes from: two values of one source are the same.
        value: the value [SI].
    """

    source: Hashable
    value: Uncertain


@dataclass(frozen=True, slots=True)
class Battery:
    """How the battery voltage in use was taken: state of the engine, and minutes ago."""

    engine: str
    minutes_ago: float = 0.0


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a walk stands.

    Attributes:
        step_id: the step.
        row: the car.
        mode: whether its fault is there.
        known: the values that are still needed, by name.
        fitted: what is fitted to the car.
        battery: the battery voltage in use, while it may still be needed.
    """

    step_id: str
    row: int
    mode: Mode
    known: Mapping[str, Known]
    fitted: Fitted = frozenset()
    battery: Battery | None = None

    @property
    def key(self) -> Hashable:
        """Two walks with the same key go on in the same way."""
        return self.row, self.mode, self.known_by(self.known), self.fitted, self.battery

    def known_by(self, names: Mapping[str, Known] | frozenset[str]) -> Hashable:
        """What the values of some names come from."""
        return tuple((n, self.known[n].source) for n in sorted(names) if n in self.known)

    def values(self, vehicle: Values) -> dict[str, Uncertain | str]:
        """All values that bands may refer to."""
        return {**vehicle, **{name: known.value for name, known in self.known.items()}}

    def gone_on(
        self,
        target: str,
        live: Live,
        minutes: float,
        more: Mapping[str, Known],
        fitted: Fitted,
        battery: Battery | None,
    ) -> "Standing":
        """The walk at the next step.

        Args:
            target: the step.
            live: what is still needed where.
            minutes: what the step before took.
            more: what became known there.
            fitted: what is fitted now.
            battery: the battery voltage in use before those minutes.
        """
        wanted = live[target]
        known = {n: k for n, k in {**self.known, **more}.items() if n in wanted}
        if battery is not None:
            aged = replace(battery, minutes_ago=battery.minutes_ago + minutes)
            is_good = aged.minutes_ago <= BATTERY_AGE_LIMIT_S / 60 and needs_battery(live, target)
            battery = aged if is_good else None
        return Standing(target, self.row, self.mode, known, fitted, battery)
