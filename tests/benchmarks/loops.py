"""How long refrigerant loops take to settle, against a general solver that takes one at a time."""

from time import perf_counter
from typing import Any

from .rows import Row, in_turn

_RUNS = 500
"""Runs of one loop: weather, speed and charge of a proof's settings."""
_ONE_BY_ONE = 25
"""Runs that the general solver is given; its time is taken for each."""
_GOAL = 40.0
_GOAL_MS = 200.0


def rows(rounds: int) -> list[Row]:
    """All runs at once, against scipy's Levenberg-Marquardt on the same balances."""
    from faulttree.core.loop.parts import Loop, Run
    from faulttree.core.loop.steady import running, sized

    loop = Loop()
    runs = [
        Run(
            ambient=290 + 25 * i / (_RUNS - 1),
            charge=0.4 + 0.9 * (7 * i % _RUNS) / _RUNS,
            speed=14 + 35 * (13 * i % _RUNS) / _RUNS,
        )
        for i in range(_RUNS)
    ]
    sized(loop)

    def together() -> float:
        start = perf_counter()
        running(loop, runs)
        return (perf_counter() - start) / _RUNS

    ours, theirs = in_turn(
        rounds, together, lambda: _one_by_one(loop, runs[:: _RUNS // _ONE_BY_ONE])
    )
    what = f"{_RUNS} refrigerant loops settled"
    detail = f"{ours * 1e3:.2f} ms / {theirs * 1e3:.2f} ms each"
    return [
        Row(what, "", ours * _RUNS * 1e3, _GOAL_MS, unit="ms"),
        Row(
            "the same, times faster", "scipy, one by one", theirs / ours, _GOAL,
            detail=detail, more_is_better=True,
        ),
    ]  # fmt: skip


def _one_by_one(loop: Any, runs: Any) -> float:
    import numpy as np
    from scipy.optimize import root

    from faulttree.core.loop.balance import Balance
    from faulttree.core.loop.steady import FIRST, sized

    start = perf_counter()
    for run in runs:
        balance = Balance([sized(loop)], [run])
        root(lambda u, b=balance: b.settled(u[:, None]).off[:, 0], np.array(FIRST), method="lm")
    return (perf_counter() - start) / len(runs)
