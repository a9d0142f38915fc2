"""Loops like those that published fault studies were made on, and what a fault changes in them."""

from dataclasses import dataclass, replace

from faulttree.core.loop.parts import Loop, Metering, Readings, Run
from faulttree.core.loop.steady import running
from faulttree.core.refrigerant.refrigerant import Refrigerant

HOUSE_TUBE = Loop(
    refrigerant=Refrigerant.R22,
    charge=2.5,
    metering=Metering.TUBE,
    displacement=48e-6,
    condenser_air=1.3,
    condenser_units=1.2,
    evaporator_air=0.62,
    evaporator_units=1.6,
    vessel=0.0,
)
"""A house air conditioner of 9 kW without receiver or accumulator, as in most fault studies."""
HOUSE_VALVE = replace(HOUSE_TUBE, metering=Metering.VALVE)
HOUSE_RUN = Run(ambient=308.15, entering=299.85, humidity=0.5, speed=48.0)
"""35 °C outside, 26.7 °C and 50 % inside: the rating point of those studies."""


@dataclass(frozen=True)
class Change:
    """A loop before and after something went wrong."""

    before: Readings
    after: Readings

    @property
    def capacity(self) -> float:
        return self.after.capacity / self.before.capacity

    @property
    def power(self) -> float:
        return self.after.power / self.before.power

    @property
    def performance(self) -> float:
        return self.capacity / self.power

    def of(self, name: str) -> float:
        """Change of a reading."""
        return condensing(self, name) if name == "condensing" else self._of(name)

    def _of(self, name: str) -> float:
        return float(getattr(self.after, name) - getattr(self.before, name))


def condensing(change: Change, _name: str) -> float:
    """Change of the temperature at which it condenses [K], as a thermometer would find it."""
    before, after = change.before, change.after
    return after.liquid_pipe + after.subcooling - before.liquid_pipe - before.subcooling


def change(loop: Loop, run: Run, **wrong: object) -> Change:
    """What a fault changes."""
    return Change(*running(loop, [run, replace(run, **wrong)]))  # type: ignore[arg-type]
