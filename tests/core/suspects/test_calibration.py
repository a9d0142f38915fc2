"""Suspects that are said to be so likely are right so often: a small run of calibration.py.

The cars are off by a tenth in every resistance, their meters by up to their limit of error.
"""

from benches import TREES
from core.suspects.calibration import Table

CARS = 5
"""Of each tree; the table in docs/decisions/suspects.md is of many more."""


def test_what_is_said_to_be_likely_is_right() -> None:
    table = Table()
    for name in TREES:
        table.take(name, CARS, "test")
    sure = [c for c in table.classes if c.low >= 0.95 and c.count]
    likely = [c for c in table.classes if c.low in (0.7, 0.8, 0.9) and c.count]
    assert sum(c.right for c in sure) >= 0.95 * sum(c.count for c in sure)
    assert sum(c.right for c in likely) >= 0.7 * sum(c.count for c in likely)
    assert table.part_first >= 0.7 * table.n
    assert all(said < 0.95 for said, _, _ in table.worst), "never sure and wrong at the end"
