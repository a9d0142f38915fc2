"""Problems to order, built from a few figures."""

import json
from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from faulttree.core.order import problem as given

_PUBLISHED = Path(__file__).parents[2] / "data" / "order" / "published.json"


def matrix_problem(
    weights: Sequence[float], minutes: Sequence[float], shows: Sequence[Sequence[object]]
) -> given.Problem:
    """A problem of faults a, b, c ... and tests 1, 2, 3 ...

    Args:
        weights: of the faults.
        minutes: of the tests.
        shows: for each fault what each test shows.
    """
    suspects = tuple(given.Suspect(_name(n), _name(n), w) for n, w in enumerate(weights))
    tests = tuple(
        given.Test(str(n + 1), cost, tuple((str(row[n]),) for row in shows))
        for n, cost in enumerate(minutes)
    )
    return given.Problem(suspects, tests)


def _name(n: int) -> str:
    return chr(ord("a") + n) if n < 26 else f"z{n}"


@cache
def published() -> list[dict[str, Any]]:
    """The instances of tests/data/order/published.json; each names its source."""
    found: list[dict[str, Any]] = json.loads(_PUBLISHED.read_text("utf-8"))
    return found


def published_problem(instance: dict[str, Any]) -> given.Problem:
    """One of them as a problem."""
    return matrix_problem(instance["weights"], instance["minutes"], instance["shows"])


def optimum_of(instance: dict[str, Any]) -> float:
    """Its least mean minutes."""
    return float(Fraction(instance["optimum"]))
