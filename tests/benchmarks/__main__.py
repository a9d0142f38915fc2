"""Measures every limit of docs/benchmarks.md and prints them as a table.

    python -m tests.benchmarks [--rounds N] [--only PART] [--json]

Each figure is a ratio to a baseline that is timed in turn with it, so that the speed of a machine
and other load on it cancel as far as they can. The exit code is 1 when a goal is missed. POSIX
only: the screens are timed on a pseudo-terminal.
"""

import argparse
import json
import os
import sys
import tempfile
from collections.abc import Callable
from dataclasses import asdict
from pathlib import Path

from . import (
    circuits,
    loops,
    next_tests,
    orders,
    proofs,
    reading,
    searching,
    starts,
    suspects,
    traces,
    walking,
)
from .prepared import Prepared, prepare
from .rows import Row

_PARTS: dict[str, Callable[[Prepared, int], list[Row]]] = {
    "starts": starts.rows,
    "walking": walking.rows,
    "reading": reading.rows,
    "circuits": lambda _prepared, rounds: circuits.rows(rounds),
    "loops": lambda _prepared, rounds: loops.rows(rounds),
    "proofs": lambda _prepared, rounds: proofs.rows(rounds),
    "orders": lambda _prepared, rounds: orders.rows(rounds),
    "next": lambda _prepared, rounds: next_tests.rows(rounds),
    "suspects": lambda _prepared, rounds: suspects.rows(rounds),
    "searching": lambda _prepared, rounds: searching.rows(rounds),
    "traces": traces.rows,
}

_LOAD = "Above the number of cores the ratios of keys and starts come out too large."


def main() -> int:
    """Measure, print, and tell by the exit code whether every goal is met."""
    arguments = _arguments()
    with tempfile.TemporaryDirectory(prefix="faulttree-benchmarks-") as folder:
        prepared = prepare(Path(folder))
        rows = [
            row
            for part, measure in _PARTS.items()
            if arguments.only in (None, part)
            for row in measure(prepared, arguments.rounds)
        ]
    if arguments.json:
        text = json.dumps([asdict(r) | {"met": r.is_met} for r in rows], indent=1)
    else:
        text = _table(rows)
    sys.stdout.write(f"{text}\n")
    sys.stderr.write(f"Load average {os.getloadavg()[0]:.1f}, {os.cpu_count()} cores. {_LOAD}\n")
    return 0 if all(row.is_met for row in rows) else 1


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks", description=__doc__)
    parser.add_argument("--rounds", type=int, default=15, help="samples of each start; 15")
    parser.add_argument("--only", choices=_PARTS, help="one part only")
    parser.add_argument("--json", action="store_true", help="print JSON instead of a table")
    return parser.parse_args()


def _table(rows: list[Row]) -> str:
    lines = ["| what | against | measured | goal | met | figures |", "|---|---|---|---|---|---|"]
    for row in rows:
        bound = "at least" if row.more_is_better else "at most"
        lines.append(
            f"| {row.what} | {row.against or '-'} | {row.measured:.2f} {row.unit} "
            f"| {bound} {row.goal:g} {row.unit} | {'yes' if row.is_met else 'NO'} "
            f"| {row.detail or '-'} |"
        )
    return "\n".join(lines)


if __name__ == "__main__":
    sys.exit(main())
