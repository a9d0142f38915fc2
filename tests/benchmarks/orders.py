"""How long it takes to order tests: proven optimum, gap where there is none, the next test.

Times are processor time: the searches run on one core, and wait for nothing.
"""

from collections.abc import Iterator
from random import Random
from time import process_time
from typing import Any

from tests.core.order.networks import network_problem

from .rows import Row, percentile

_NETWORKS = 5
"""Networks of each size; the slowest counts."""
_WALKS = 4
"""Cars walked to the end in each of the networks that next tests are asked for."""


def rows(_rounds: int) -> list[Row]:
    """Made-up supply networks: three faults a piece of wire, four tests for three faults."""
    return [
        _proven(60, 80, 1.0),
        _proven(90, 120, 10.0),
        *_beyond(100, 134, 10.0),
        _next_tests(60, 60),
        _next_afresh(60, 60),
    ]


def _problems(faults: int, tests: int) -> Iterator[Any]:
    return (network_problem(faults, tests, seed) for seed in range(_NETWORKS))


def _best(problem: Any) -> tuple[float, Any]:
    from faulttree.core.order.planner import Planner

    began = process_time()
    found = Planner(problem).best()
    return process_time() - began, found


def _proven(faults: int, tests: int, goal_s: float) -> Row:
    found = [_best(problem) for problem in _problems(faults, tests)]
    unproven = sum(not ordered.expected.is_proven for _, ordered in found)
    times = sorted(seconds for seconds, _ in found)
    detail = f"of {_NETWORKS} networks; median {times[_NETWORKS // 2]:.2f} s; {unproven} unproven"
    measured = float("inf") if unproven else round(times[-1], 2)
    what = f"order of {tests} tests for {faults} faults, proven, slowest"
    return Row(what, "", measured, goal_s, "s", detail)


def _beyond(faults: int, tests: int, goal_s: float) -> list[Row]:
    found = [_best(problem) for problem in _problems(faults, tests)]
    gaps = [ordered.expected.gap * 100 for _, ordered in found]
    slowest = max(seconds for seconds, _ in found)
    proven = sum(ordered.expected.is_proven for _, ordered in found)
    what = f"order of {tests} tests for {faults} faults"
    return [
        Row(f"{what}, widest gap", "", round(max(gaps), 1), 15.0, "%", f"{proven} proven"),
        Row(f"{what}, slowest", "", round(slowest, 2), goal_s, "s"),
    ]


def _next_tests(faults: int, tests: int) -> Row:
    """After readings: any of the best tests was done, of a problem whose order was worked out."""
    times, proven = [], 0
    for number, problem in enumerate(_problems(faults, tests)):
        for seconds, is_proven in _walked(problem, Random(number)):
            times.append(seconds * 1000)
            proven += is_proven
    detail = f"{len(times)} readings, {proven} proven; slowest {max(times):.0f} ms"
    what = f"next test after a reading, {faults} faults, {tests} tests, p95"
    return Row(what, "", round(percentile(times, 95), 1), 50, "ms", detail)


def _walked(problem: Any, rng: Random) -> Iterator[tuple[float, bool]]:
    from faulttree.core.order.following import SoFar
    from faulttree.core.order.planner import Planner

    planner = Planner(problem)
    planner.best()
    shows = {test.name: test.shows for test in problem.tests}
    for car in rng.sample(range(len(problem.suspects)), _WALKS):
        seen: dict[str, str] = {}
        while True:
            began = process_time()
            advice = planner.next_tests(SoFar(seen))
            yield process_time() - began, advice.expected.is_proven
            if not advice.options:
                break
            test = rng.choice(advice.options).test
            seen[test] = shows[test][car][0]


def _next_afresh(faults: int, tests: int) -> Row:
    """With nothing worked out before, as when the weights of the suspects have changed."""
    from faulttree.core.order.following import SoFar
    from faulttree.core.order.planner import Planner

    times, proven = [], 0
    for problem in _problems(faults, tests):
        began = process_time()
        advice = Planner(problem).next_tests(SoFar())
        times.append((process_time() - began) * 1000)
        proven += advice.expected.is_proven
    what = f"first test of a new problem, {faults} faults, {tests} tests, slowest"
    return Row(what, "", round(max(times), 1), 150, "ms", f"{proven} of {len(times)} proven")
