"""How long the best next tests take, once it is worked out what every test tells.

Processor time is taken, which other load on the machine does not add to: nothing here waits.
"""

import random
from pathlib import Path
from statistics import median
from time import process_time
from typing import Any

from .rows import Row

TREES = Path(__file__).parents[2] / "trees"
FAULTS, TESTS, PARTS = 60, 60, 30
_GOAL_MS = 50


def rows(rounds: int) -> list[Row]:
    """A problem of sixty faults and sixty tests, and the shipped trees before any reading."""
    few = max(3, rounds)
    made = _seconds(_made_up(), few)
    shipped = {folder.name: _on_bench(folder) for folder in sorted(TREES.iterdir())}
    times = {name: _seconds(told, few) for name, (told, _) in shipped.items()}
    slowest = max(times, key=times.__getitem__)
    tables = max(shipped.values(), key=lambda found: found[1])[1]
    told = shipped[slowest][0]
    size = f"{slowest}: {len(told.cars)} cars, {len(told.tests)} tests"
    return [
        Row(
            f"next tests, {FAULTS} faults x {TESTS} tests",
            "",
            round(made * 1000, 1),
            _GOAL_MS,
            "ms",
            f"{PARTS} parts",
        ),
        Row(
            "next tests of the slowest shipped tree, before any reading",
            "",
            round(times[slowest] * 1000, 1),
            2 * _GOAL_MS,
            "ms",
            size,
        ),
        Row("what the tests of a shipped tree tell, one battery", "", round(tables, 2), 2.0, "s"),
    ]


def _seconds(told: Any, rounds: int) -> float:
    from faulttree.core.advice.next_test import next_tests

    shares: dict[str, float] = {}
    for row in told.rows:
        shares[row.suspect.id] = shares.get(row.suspect.id, 0.0) + row.weight
    whole = sum(shares.values())
    shares = {name: weight / whole for name, weight in shares.items()}
    own = told.tests[-1].step_id

    def once() -> float:
        began = process_time()
        assert next_tests(told, shares, (), own).best
        return process_time() - began

    return median(once() for _ in range(rounds))


def _made_up() -> Any:
    """Faults that each test splits into two or three by chance; few outcomes are open."""
    from faulttree.core.advice.outcomes import Telling, Tellings
    from faulttree.core.bench.suspects import Form, Suspect
    from faulttree.core.bench.suspects import Row as CarRow

    drawn = random.Random(60)
    suspects = [
        Suspect(f"f{n}", f"p{n % PARTS}", f"fault {n}", 1.0, None, ()) for n in range(FAULTS)
    ]
    cars = tuple(CarRow(suspect, Form(), "here", 1.0) for suspect in suspects)
    tests = tuple(
        Telling(
            f"t{n}",
            drawn.choice((1.0, 2.0, 5.0)),
            frozenset({f"r{drawn.randrange(4)}"}) if n % 3 == 0 else frozenset(),
            False,
            ("low", "middle", "high"),
            tuple(_outcomes(drawn, 2 + n % 2) for _ in cars),
        )
        for n in range(TESTS)
    )
    ready = {f"r{n}": 4.0 for n in range(4)}
    return Tellings(tuple(range(FAULTS)), cars, tests, ready)


def _outcomes(drawn: random.Random, count: int) -> frozenset[int]:
    first = drawn.randrange(count)
    is_open = drawn.random() < 0.001
    return frozenset({first, (first + 1) % count}) if is_open else frozenset({first})


def _on_bench(folder: Path) -> tuple[Any, float]:
    """What the tests of a shipped tree tell at one battery, and the seconds that it took."""
    from faulttree.core.advice.outcomes import tellings
    from faulttree.core.bench.bench import Bench
    from faulttree.core.bench.looks import supplied
    from faulttree.core.circuit.circuit import Circuit
    from faulttree.core.proof.set_up import set_up
    from faulttree.files.benches import open_bench

    found = open_bench(folder / "tree.yaml")
    tree, model, sheet = found.tree.document, found.circuit.document, found.sheet.document
    _, judge = set_up(tree, model, sheet, found.vehicle.document if found.vehicle else None)
    began = process_time()
    normal = supplied(sheet, model)["normal"]
    bench = Bench(tree, Circuit.from_document(model), sheet, {"here": normal})
    told = tellings(bench, judge, "here")
    return told, process_time() - began
