"""Whether a compressor clutch pulls in: air gap, heat of the coil, and what is lost on the way.

A magnet pulls by its ampere turns, so what it needs is current, and the more the wider the gap. A
hot coil has more resistance and lets less of it flow: it needs more volts for the same pull.
"""

REFERENCE_OHM = 3.6
"""The coil that the figures below are of, at 20 °C [ohm]; common practice."""
PULL_IN_V = ((0.0004, (7.0, 7.5, 8.0)), (0.001, (9.0, 10.0, 11.0)))
"""Air gap [m] to the volts at which such a coil, cold, pulls in: least, usual, most. Common
practice, no source; over the resistance it is 2.1 A and 2.8 A."""
NARROWEST_M, WIDEST_M = 0.0002, 0.0015
"""Air gaps that are reckoned with [m]."""
GAP_M = (0.00041, 0.00079)
"""The gap as it should be [m]. Source: US Army TM 9-2320-280-34."""
LEAST_OHM, MOST_OHM = 2.0, 6.0
"""Coils of 12 V clutches at 20 °C [ohm]. Source: study pages 2 to 5 ohm; common practice."""
Three = tuple[float, float, float]
"""Least, usual, most."""


def pull_in_current(gap: float, coil: float = REFERENCE_OHM) -> Three:
    """Current that pulls the plate in [A]: least, usual, most.

    A straight line over the gap through the two figures, drawn on beyond them. A coil of another
    resistance in the same space has other wire: its turns go with the root of the resistance, and
    it needs so much less current for the same ampere turns.

    Args:
        gap: air gap [m].
        coil: its resistance at 20 °C [ohm].
    """
    (near, least), (far, most) = PULL_IN_V
    share = (gap - near) / (far - near)
    turns = (coil / REFERENCE_OHM) ** 0.5
    a, b, c = (
        (low + share * (high - low)) / REFERENCE_OHM / turns
        for low, high in zip(least, most, strict=True)
    )
    return a, b, c


def pull_in_voltage(gap: float, hot: float, coil: float = REFERENCE_OHM) -> Three:
    """Volts at the coil that pull the plate in [V]: least, usual, most.

    Args:
        gap: air gap [m].
        hot: resistance of the coil as it is now, hot or cold [ohm].
        coil: its resistance at 20 °C [ohm].
    """
    a, b, c = (hot * amps for amps in pull_in_current(gap, coil))
    return a, b, c
