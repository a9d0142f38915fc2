"""Loops that run steadily: what the instruments show once all has settled."""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from faulttree.core.loop.balance import Balance, Settled, Sized
from faulttree.core.loop.charge import KEPT_BELOW
from faulttree.core.loop.fluid import Floats
from faulttree.core.loop.parts import Corner, Loop, Metering, Readings, Run
from faulttree.core.loop.solver import solved

TEST_RUN = Run()
"""The run that a loop is sized by: 30 °C, half humid, brisk idle, all air."""
FIRST = (-0.7, -0.5, 0.2, 0.1)
"""Unknowns near those of a healthy car, where a solver begins."""
_ABOVE_SPRING, _TUBE_SUPERHEAT = 1.0, 0.05
_NEW_SUBCOOLING = {Metering.VALVE: KEPT_BELOW, Metering.TUBE: 8.0}
"""What a new car settles at in the test run [K]; common size, no source."""
_FIN_K, _DUCT = 2.0, 0.10
"""Fins are so much warmer than what boils in them; share of the way back to the outside air that
the ducts give. Common practice, no source."""
_PROBE, _SEEN = 0.8, 0.8
"""Share of the evaporator in front of the thermostat's probe; how far the fins round it follow the
air once nothing boils there any more. Common practice, no source."""
_BEYOND_K, _OVERFULL = 3.0, 0.005


@lru_cache(maxsize=64)
def sized(loop: Loop) -> Sized:
    """The loop with the valve and the volume that suit its label in the test run."""
    balance = Balance([Sized(loop)], [TEST_RUN])

    def unknowns(two: Floats) -> Floats:
        heating = -np.log(1.0 - _new_superheat(loop) / balance.drop(two[0]))
        cooling = -np.log(1.0 - _NEW_SUBCOOLING[loop.metering] / balance.lift(two[1]))
        return np.array([two[0], two[1], cooling, heating])

    def off(two: Floats, _which: NDArray[np.intp]) -> Floats:
        return balance.settled(unknowns(two)).off[1:3]

    two, _ = solved(off, np.array([[FIRST[0]], [FIRST[1]]]))
    new = balance.settled(unknowns(two))
    area = float(new.pumped.flow[0] / new.passed.flow[0])
    return Sized(loop, area, float(loop.charge / new.charge[0]))


def _new_superheat(loop: Loop) -> float:
    return _TUBE_SUPERHEAT if loop.metering is Metering.TUBE else loop.superheat + _ABOVE_SPRING


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
    """The same for runs with one refrigerant."""
    balance = Balance([sized(loop)] * len(runs), runs)
    start = np.tile(np.array(FIRST)[:, None], (1, len(runs)))
    unknowns, _ = solved(lambda u, which: balance.part(which).settled(u).off, start)
    settled = balance.settled(unknowns)
    columns = _shown(balance, settled, runs)
    hottest = balance.fluid.hottest - _BEYOND_K
    # Coils full of liquid hold no more; what is left over would burst them.
    overfull = settled.off[3] < -_OVERFULL
    highest = balance.fluid.pressure(np.array(hottest)) - balance.atmosphere
    columns["high_side"] = np.where(
        overfull, np.maximum(columns["high_side"], highest), columns["high_side"]
    )
    beyond = overfull | (settled.at.condensing > hottest)
    return [
        Readings(
            **{name: float(values[i]) for name, values in columns.items()},
            is_beyond=bool(beyond[i]),
            corners=_corners(settled, i),
        )
        for i in range(len(runs))
    ]


def _shown(balance: Balance, settled: Settled, runs: Sequence[Run]) -> dict[str, Floats]:
    """Columns of Readings."""
    f, at, pumped = balance.fluid, settled.at, settled.pumped
    liquid = at.condensing - np.maximum(at.subcooling, 0.0)
    heated = np.maximum(pumped.behind - at.hot.dry, 0.0)
    return {
        "low_side": at.low - balance.atmosphere,
        "high_side": at.high - balance.atmosphere,
        "evaporator_in": at.boiling,
        "suction_pipe": at.boiling + at.superheat,
        "discharge_pipe": at.condensing + heated / at.hot.vapour_heat,
        "liquid_pipe": liquid,
        "valve_in": np.minimum(liquid, f.temperature(settled.passed.valve_pressure)),
        "fin": at.boiling + _FIN_K + _at_probe(settled) * at.drop,
        "vent": _vent(balance, settled, runs),
        "superheat": at.superheat,
        "subcooling": np.maximum(at.subcooling, 0.0),
        "flow": pumped.flow,
        "capacity": pumped.flow * (pumped.breathed - at.liquid),
        "power": pumped.work,
    }


def _vent(balance: Balance, settled: Settled, runs: Sequence[Run]) -> Floats:
    coil = balance.air_behind(settled)
    mixed = np.array([run.mixed(air) for run, air in zip(runs, coil, strict=True)])
    return np.asarray(mixed + _DUCT * (balance.ambient - mixed))


def _at_probe(settled: Settled) -> Floats:
    """How far the fins round the probe are from boiling towards the air, 0 to 1."""
    starved = np.clip((_PROBE - settled.boiled) / _PROBE, 0.0, 1.0)
    return np.asarray(_SEEN * starved)


def _corners(settled: Settled, index: int) -> tuple[Corner, ...]:
    at, pumped = settled.at, settled.pumped
    return tuple(
        Corner(float(pressure[index]), float(enthalpy[index]))
        for pressure, enthalpy in (
            (at.low, pumped.breathed),
            (at.high, pumped.behind),
            (at.high, at.liquid),
            (at.low, at.liquid),
        )
    )
