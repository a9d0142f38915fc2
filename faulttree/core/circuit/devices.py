"""The nonlinear branches: current and slope by voltage, many cases at once.

Every law rises with the voltage everywhere, so that a circuit has one operating point for each
state of its relays, and Newton's method finds it.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from faulttree.core.circuit.laws import LAMP_EXPONENT
from faulttree.core.circuit.netlist import Law

Floats = NDArray[np.float64]


class Line(NamedTuple):
    """Currents [A] and slopes [S] of branches at given voltages, all of one shape."""

    amps: Floats
    slope: Floats


def line(law: Law, volts: Floats, ohm: Floats, emf: Floats, shape: Floats) -> Line:
    """Current and slope of branches of one law.

    Args:
        law: which law; not the linear one.
        volts: voltage from a to b [V], shape (n_cases, n_branches) as all arrays here.
        ohm: first figure of the law [ohm].
        emf: second figure [V].
        shape: the others, shape (n_cases, n_branches, 3).
    """
    if law is Law.DIODE:
        return _diode(volts, ohm, emf)
    if law is Law.LAMP:
        return _lamp(volts, ohm, emf, shape[..., 0])
    return _motor(volts, ohm, shape)


def _diode(volts: Floats, ohm: Floats, forward: Floats) -> Line:
    slope = np.where(volts > forward, 1.0 / ohm, 0.0)
    return Line((volts - forward) * slope, slope)


def _lamp(volts: Floats, cold: Floats, rated: Floats, hot: Floats) -> Line:
    """Cold resistance up to where the power law meets it, the power law beyond."""
    size = np.abs(volts)
    knee = rated * (cold / hot) ** (1.0 / (1.0 - LAMP_EXPONENT))
    is_hot = size > knee
    safe = np.where(is_hot, size, 1.0)
    power = rated / hot * (safe / rated) ** LAMP_EXPONENT
    amps = np.where(is_hot, np.copysign(power, volts), volts / cold)
    return Line(amps, np.where(is_hot, LAMP_EXPONENT * power / safe, 1.0 / cold))


def _motor(volts: Floats, winding: Floats, shape: Floats) -> Line:
    """At rest until friction is overcome; then winding drop and back-EMF E make up the voltage.

    I = friction + drag E + fan E^2 and V = winding I + E, solved for E without cancellation.
    """
    friction, drag, fan = shape[..., 0], shape[..., 1], shape[..., 2]
    size = np.abs(volts)
    turns = size > winding * friction
    left = np.where(turns, size - winding * np.where(turns, friction, 0.0), 0.0)
    p = 1.0 + winding * drag
    back_emf = 2.0 * left / (p + np.sqrt(p * p + 4.0 * winding * fan * left))
    running = np.where(turns, friction, 0.0) + drag * back_emf + fan * back_emf**2
    rise = drag + 2.0 * fan * back_emf
    amps = np.where(turns, np.copysign(running, volts), volts / winding)
    return Line(amps, np.where(turns, rise / (1.0 + winding * rise), 1.0 / winding))
