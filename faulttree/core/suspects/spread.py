"""How far a reading of a real car may lie from what the model says, as a standard deviation."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from faulttree.core.atmosphere import SEA_LEVEL_PA
from faulttree.core.suspects.density import Floats, Spans
from faulttree.core.uncertain import Uncertain
from faulttree.core.units import Quantity

TOLERANCE = 0.1
"""How far resistances of a real car may be from those of the model, either way; common practice, no
source."""
LEAST: Mapping[Quantity, float] = {
    Quantity.VOLTAGE: 0.01,
    Quantity.CURRENT: 0.02,
    Quantity.RESISTANCE: 0.1,
}
"""Spread of readings that no model gets right [SI]: contact of the probe, wires left out."""
AS_MEASURED_V, AT_REST_V, GENERATOR_V = 0.05, 0.15, 0.4
"""Spread of a battery's EMF: measured a while ago; not measured, engine stopped; not measured,
generator running [V]. Common practice, no source."""
SAG = 0.4
"""Spread of what a battery loses under load, as a share of it: no voltmeter tells its internal
resistance. Common practice, no source."""
INPUT_SHARE, INPUT_K = 0.2, 10.0
"""Spread of a pressure, a gap, a temperature about the figure that stands for it in the model: as a
share of it, or in kelvins. Common practice, no source."""

SHOWN_SHARE, SHOWN_K = 0.1, 3.0
"""Spread of what a refrigerant loop shows about what its model says: as a share of it, of the
absolute one for a pressure, or in kelvins. The model is of no car in particular; common practice,
no source."""


@dataclass(frozen=True, slots=True, eq=False)
class Feed:
    """The battery behind a reading.

    Attributes:
        emf: what it would show without load [V].
        posts: what it shows in each hypothesis, shape (n,) [V].
        doubt: spread of the EMF [V].
    """

    emf: float
    posts: Floats
    doubt: float

    @property
    def relative(self) -> Floats:
        """Spread of the voltage that drives everything, as a share of it, shape (n,)."""
        sag = np.clip(np.nan_to_num(self.emf - self.posts), 0.0, self.emf)
        return np.asarray(np.hypot(self.doubt, SAG * sag) / np.maximum(self.emf - sag, 1.0))


def spread(value: Uncertain, quantity: Quantity, spans: Spans, feed: Feed) -> Floats:
    """Standard deviation of a reading about what the model says [SI], shape (n,).

    The instrument's limit of error over the square root of three (JCGM 100:2008, 4.3.7), and what
    the model may be off: a voltage lies between two resistances, so that their tolerance moves it
    most at half of the battery's and not at all at either end; voltages and currents go with the
    battery, whose own is not known exactly.
    """
    middle = np.abs(spans.low + spans.high) / 2
    meter = 0.0 if math.isinf(value.value) else value.radius / math.sqrt(3)
    off, fed = np.zeros_like(middle), np.zeros_like(middle)
    if quantity is Quantity.VOLTAGE:
        whole = np.maximum(np.nan_to_num(feed.posts), np.maximum(middle, 1e-6))
        off = TOLERANCE * middle * (whole - middle) / whole
        fed = feed.relative * middle
    elif quantity is Quantity.CURRENT:
        off, fed = TOLERANCE * middle, feed.relative * middle
    elif quantity is Quantity.RESISTANCE:
        off = TOLERANCE * middle
    least = LEAST.get(quantity, 0.0)
    return np.asarray(np.sqrt(meter**2 + off**2 + fed**2 + least**2) + 1e-9)


def spread_of_input(value: Uncertain, quantity: Quantity, spans: Spans) -> Floats:
    """The same for a reading of what the car was given: a pressure, a temperature, a gap.

    The model has one figure for a warm day, an empty tyre, a worn plate; cars have others.
    """
    return _about(value, quantity, spans, (INPUT_SHARE, INPUT_K))


def spread_of_shown(value: Uncertain, quantity: Quantity, spans: Spans) -> Floats:
    """The same for what a refrigerant loop shows."""
    return _about(value, quantity, spans, (SHOWN_SHARE, SHOWN_K))


def _about(value: Uncertain, quantity: Quantity, spans: Spans, off: tuple[float, float]) -> Floats:
    share, kelvins = off
    middle = np.abs(spans.low + spans.high) / 2
    if quantity is Quantity.TEMPERATURE:
        model = np.full_like(middle, kelvins)
    elif quantity is Quantity.GAUGE_PRESSURE:
        model = share * np.maximum((spans.low + spans.high) / 2 + SEA_LEVEL_PA, 0.0)
    else:
        model = share * middle
    meter = 0.0 if math.isinf(value.value) else value.radius / math.sqrt(3)
    return np.asarray(np.hypot(meter, model) + 1e-9)
