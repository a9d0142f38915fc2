"""Loops that run steadily: what the instruments show once all has settled."""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from faulttree.core.loop.balance import (
    NOMINAL_SUBCOOLING,
    NOMINAL_SUPERHEAT,
    Balance,
    Settled,
    Sized,
)
from faulttree.core.loop.fluid import Floats
from faulttree.core.loop.parts import Corner, Loop, Readings, Run
from faulttree.core.loop.solver import solved

TEST_RUN = Run()
"""The run that a loop is sized by: 30 °C, half humid, brisk idle, all air."""
FIRST = (-0.7, -0.5, 0.2, 0.1)
"""Unknowns near those of a healthy car, where a solver begins."""
_FIN_K, _DUCT = 2.0, 0.10
"""Fins are so much warmer than what boils in them; share of the way back to the outside air that
the ducts give. Common practice, no source."""
_PROBE, _SEEN = 0.8, 0.8
"""Share of the evaporator in front of the thermostat's probe; how far the fins round it follow the
air once nothing boils there any more. Common practice, no source."""


@lru_cache(maxsize=64)
def sized(loop: Loop) -> Sized:
    """The loop with the valve and the volume that suit its label in the test run."""
    balance = Balance([Sized(loop)], [TEST_RUN])

    def unknowns(two: Floats) -> Floats:
        heating = -np.log(1.0 - NOMINAL_SUPERHEAT[loop.metering] / balance.drop(two[0]))
        cooling = -np.log(1.0 - NOMINAL_SUBCOOLING[loop.metering] / balance.lift(two[1]))
        return np.array([two[0], two[1], cooling, heating])

    def off(two: Floats, _which: NDArray[np.intp]) -> Floats:
        return balance.settled(unknowns(two)).off[1:3]

    two, _ = solved(off, np.array([[FIRST[0]], [FIRST[1]]]))
    at = balance.settled(unknowns(two))
    return Sized(loop, float(at.flow[0] / at.metered[0]), float(loop.charge / at.charge[0]))


def _at_probe(at: Settled) -> Floats:
    """How far the fins round the probe are from boiling towards the air, 0 to 1."""
    starved = np.clip((_PROBE - at.boiling_share) / _PROBE, 0.0, 1.0)
    return np.asarray(_SEEN * starved)


def running(loop: Loop, runs: Sequence[Run]) -> list[Readings]:
    """What instruments show on a loop in several runs, in their order."""
    groups: dict[object, list[int]] = {}
    for index, run in enumerate(runs):
        groups.setdefault(run.charged_with, []).append(index)
    found: dict[int, Readings] = {}
    for indexes in groups.values():
        found.update(zip(indexes, _together(loop, [runs[i] for i in indexes]), strict=True))
    return [found[index] for index in range(len(runs))]


def _together(loop: Loop, runs: Sequence[Run]) -> list[Readings]:
    balance = Balance([sized(loop)] * len(runs), runs)
    start = np.tile(np.array(FIRST)[:, None], (1, len(runs)))
    unknowns, _ = solved(lambda u, which: balance.part(which).settled(u).off, start)
    at = balance.settled(unknowns)
    return _readings(balance, at, runs)


def _readings(balance: Balance, at: Settled, runs: Sequence[Run]) -> list[Readings]:
    f = balance.fluid
    liquid = at.condensing - np.maximum(at.subcooling, 0.0)
    discharge = at.condensing + np.maximum(at.h2 - f.dry(at.condensing), 0.0) / f.vapour_heat(
        at.condensing
    )
    valve_in = np.minimum(liquid, f.temperature(at.valve_pressure))
    coil = balance.coil_out(at)
    leak, heater = (np.array([getattr(run, n) for run in runs]) for n in ("heat_leak", "heater"))
    mixed = coil + leak * (heater - coil)
    vent = mixed + _DUCT * (balance.ambient - mixed)
    superheat = np.maximum(at.superheat, 0.0)
    columns = {
        "low_side": at.low - balance.atmosphere,
        "high_side": at.high - balance.atmosphere,
        "evaporator_in": at.boiling,
        "suction_pipe": at.boiling + superheat,
        "discharge_pipe": discharge,
        "liquid_pipe": liquid,
        "valve_in": valve_in,
        "fin": at.boiling + _FIN_K + _at_probe(at) * at.drop,
        "vent": vent,
        "superheat": superheat,
        "subcooling": np.maximum(at.subcooling, 0.0),
        "flow": at.flow,
        "capacity": at.flow * (at.h1 - at.h3),
        "power": at.work,
    }
    beyond = at.condensing > f.hottest - 3.0
    return [
        Readings(
            **{name: float(values[i]) for name, values in columns.items()},
            is_beyond=bool(beyond[i]),
            corners=tuple(
                Corner(float(pressure[i]), float(enthalpy[i]))
                for pressure, enthalpy in (
                    (at.low, at.h1),
                    (at.high, at.h2),
                    (at.high, at.h3),
                    (at.low, at.h3),
                )
            ),
        )
        for i in range(len(runs))
    ]
