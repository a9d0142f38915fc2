"""The options of `faulttree gauges`; nothing heavy is imported here."""

import argparse
from collections.abc import Callable, Sequence

TYPE_CHECKING = False  # what typing.TYPE_CHECKING is, without importing typing
if TYPE_CHECKING:
    from pathlib import Path


def add_options(
    gauges: argparse.ArgumentParser, path: "Callable[[str], Path]", units: Sequence[str]
) -> None:
    """Add all of them; `path` makes a path of what is typed, `units` can be chosen from."""
    gauges.add_argument(
        "--refrigerant", metavar="NAME", help="by label and identifier: R-134a, R-12 ..."
    )
    air = gauges.add_argument_group("air of the day")
    air.add_argument("--ambient", metavar="TEMPERATURE", help="air at the condenser, such as 30C")
    air.add_argument("--humidity", metavar="PERCENT", help="its relative humidity, such as 50%%")
    air.add_argument("--altitude", metavar="HEIGHT", help="of the place; sea level if not given")
    read = gauges.add_argument_group("what was read, with the system running")
    read.add_argument("--low", metavar="PRESSURE", help="low side, such as 28psi")
    read.add_argument("--high", metavar="PRESSURE", help="high side, such as 210psi")
    read.add_argument("--suction", metavar="TEMPERATURE", help="pipe at the evaporator's outlet")
    read.add_argument("--liquid", metavar="TEMPERATURE", help="pipe at the condenser's outlet")
    read.add_argument("--discharge", metavar="TEMPERATURE", help="pipe at the compressor's outlet")
    gauges.add_argument("--units", choices=units, help="units shown and taken for bare numbers")
    gauges.add_argument("--json", action="store_true", help="as JSON")
    gauges.add_argument(
        "--pictures", metavar="FOLDER", type=path, help="write gauges.svg and cycle.svg there"
    )
    gauges.set_defaults(module="gauges")
