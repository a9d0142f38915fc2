"""What a fault does to a circuit, as small changes that combine."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Open:
    """A branch carries nothing, whatever works it."""

    branch: str


@dataclass(frozen=True, slots=True)
class Series:
    """Resistance is added to a branch [ohm]."""

    branch: str
    ohm: float


@dataclass(frozen=True, slots=True)
class Ohm:
    """A branch has another resistance [ohm]; a nonlinear one becomes a plain resistor."""

    branch: str
    ohm: float


@dataclass(frozen=True, slots=True)
class Stuck:
    """A relay contact or a driver is closed for good, whatever works it."""

    branch: str


@dataclass(frozen=True, slots=True)
class Between:
    """A new path between two nodes [ohm]: a short, a leak, a lead."""

    a: str
    b: str
    ohm: float


@dataclass(frozen=True, slots=True)
class Change:
    """An element changes by a named amount; the element's own module says what that means."""

    element: str
    key: str
    amount: float = 1.0


@dataclass(frozen=True, slots=True)
class Threshold:
    """Both thresholds of a control are multiplied by a factor."""

    control: str
    factor: float


Edit = Open | Series | Ohm | Stuck | Between | Change | Threshold
"""One change to a circuit."""

SHORT_OHM = 0.01
"""Resistance of a short [ohm]; bare copper against bare metal, common practice, no source."""
