"""The options of `faulttree trace`; nothing heavy is imported here."""

import argparse
from collections.abc import Callable

TYPE_CHECKING = False  # what typing.TYPE_CHECKING is, without importing typing
if TYPE_CHECKING:
    from pathlib import Path


def add_options(trace: argparse.ArgumentParser, path: "Callable[[str], Path]") -> None:
    """Add all of them; `path` makes a path of what is typed."""
    trace.add_argument("file", metavar="FILE", type=path, help="a logged trace, as CSV")
    trace.add_argument("--json", action="store_true", help="as JSON")
    trace.add_argument("--all", action="store_true", help="list every dropout, however many")
    _columns(trace.add_argument_group("columns and units, where the header does not settle them"))
    _counting(trace.add_argument_group("what counts as a dropout"))
    _marks(trace.add_argument_group("marks: what was done while it was logged"), path)
    case = trace.add_argument_group("case")
    case.add_argument("--case", metavar="CASE", help="record what was found in this case")
    case.add_argument("--step", metavar="STEP", help="at this step; the one it stands at if not")
    trace.set_defaults(module="trace")


def _columns(group: argparse._ArgumentGroup) -> None:
    group.add_argument("--column", metavar="NAME", help="column of the readings: name or number")
    group.add_argument("--unit", metavar="UNIT", help="their unit: V, mV, A, °C ...")
    group.add_argument("--time", metavar="NAME", help="column of the times: name or number")
    group.add_argument("--time-unit", metavar="UNIT", help="their unit, where they are numbers")
    group.add_argument("--rate", metavar="HZ", help="samples a second, in place of times")
    group.add_argument("--separator", choices=("comma", "semicolon", "tab"), help="between columns")
    group.add_argument("--decimal", choices=("point", "comma"), help="decimal sign")
    group.add_argument("--gap", metavar="TIME", help="longer steps of time are gaps")


def _counting(group: argparse._ArgumentGroup) -> None:
    group.add_argument("--above", action="store_true", help="look for excursions upward instead")
    group.add_argument("--low", metavar="VALUE", help="a dropout begins below this")
    group.add_argument("--high", metavar="VALUE", help="and ends above this; as low if not given")
    group.add_argument("--merge", metavar="TIME", help="two with a shorter pause are one")
    group.add_argument("--shortest", metavar="TIME", help="shorter ones are left out then")
    group.add_argument(
        "--apart", metavar="TIME", help="those with a shorter pause are one episode; 2 s"
    )


def _marks(group: argparse._ArgumentGroup, path: "Callable[[str], Path]") -> None:
    group.add_argument(
        "--mark",
        metavar="TIME=WORD",
        action="append",
        default=[],
        help="something was done then, such as 12.5s=wiggle; may be repeated",
    )
    group.add_argument(
        "--marks",
        metavar="FILE",
        action="append",
        default=[],
        type=path,
        help="a file of marks: a time and a word on each line",
    )
    group.add_argument(
        "--window", metavar="TIME", help="what begins within this after a mark follows it; 2 s"
    )
