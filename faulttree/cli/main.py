"""The program's entry: reads the command line and hands over to one command.

Nothing heavy is imported here: `--help` and completion answer at once.
"""

import argparse
import sys
from collections.abc import Sequence
from importlib import import_module

from faulttree import __version__, start
from faulttree.cli import gauges_options, terminal
from faulttree.cli.exits import CANNOT_RUN
from faulttree.cli.trace_options import add_options

UNITS = ("us", "metric", "both")
_NUMERALS = tuple("0123456789.,")

TYPE_CHECKING = False  # what typing.TYPE_CHECKING is, without importing typing
if TYPE_CHECKING:
    from pathlib import Path

    Commands = argparse._SubParsersAction[argparse.ArgumentParser]


def parser() -> argparse.ArgumentParser:
    """The command line, all of it."""
    top = argparse.ArgumentParser(
        prog="faulttree",
        description="Guided troubleshooting of older cars: measure, decide, prove, record. "
        "Without a command the home screen opens.",
    )
    top.add_argument("--version", action="version", version=f"faulttree {__version__}")
    top.set_defaults(module="home")
    commands = top.add_subparsers(dest="command", metavar="COMMAND")
    for add in (_walk, _resume, _trees, _cases, _report, _check, _prove, _expect, _order):
        add(commands)
    for add in (_trace, _calc, _gauges, _instruments, _cautions, _completion):
        add(commands)
    return top


def main(argv: Sequence[str] | None = None) -> int:
    """Run the program and return its exit code."""
    start.begin()
    terminal.take_any_text()
    arguments = parser().parse_args(_with_signs(sys.argv[1:] if argv is None else argv))
    try:
        result: int = import_module(f"faulttree.cli.{arguments.module}").run(arguments)
        sys.stdout.flush()
    except KeyboardInterrupt:
        print("\nStopped; what was recorded is kept.", file=sys.stderr)
        return CANNOT_RUN
    except BrokenPipeError:
        sys.stderr.close()
        return CANNOT_RUN
    finally:
        start.end()
    return result


def _with_signs(argv: Sequence[str]) -> list[str]:
    """A number below zero behind a sum or a gauge gets the minus sign proper: -40C is no option."""
    if not argv or argv[0] not in ("calc", "gauges"):
        return list(argv)
    return [f"−{w[1:]}" if w[0:1] == "-" and w[1:2] in _NUMERALS else w for w in argv]


def _walk(commands: "Commands") -> None:
    walk = commands.add_parser("walk", help="begin a case: walk a tree, measurement by measurement")
    walk.add_argument("tree", metavar="TREE", help="id, file or folder of a tree")
    _on_vehicle(walk)
    walk.add_argument("--words", default="", help="the complaint in the customer's words")
    walk.add_argument("--car", default="", help="the car, as the report should name it")
    walk.add_argument("--registration", default="", help="registration or VIN")
    walk.add_argument("--odometer", default="", help="odometer reading")
    walk.add_argument("--weather", default="", help="weather and temperature")
    walk.add_argument("--customer", default="", help="the customer")
    walk.add_argument("--technician", default="", help="who works on it")
    walk.add_argument("--units", choices=UNITS, help="units shown and taken for bare numbers")
    _walking(walk)


def _resume(commands: "Commands") -> None:
    resume = commands.add_parser("resume", help="go on with a case")
    resume.add_argument("case", metavar="CASE", help="id of a case, or its beginning or end")
    _walking(resume)


def _walking(command: argparse.ArgumentParser) -> None:
    command.add_argument("--plain", action="store_true", help="line by line, no full screen")
    command.add_argument(
        "--answers", metavar="FILE", type=_path, help="take what is typed from a YAML or JSON file"
    )
    command.add_argument(
        "--json", action="store_true", help="print path, conclusion and record as JSON at the end"
    )
    command.set_defaults(module="walk")


def _path(text: str) -> "Path":
    from pathlib import Path

    return Path(text)


def _trees(commands: "Commands") -> None:
    trees = commands.add_parser("trees", help="list trees, or find one by a customer's words")
    trees.add_argument("words", nargs="*", metavar="WORDS", help="what the customer says")
    trees.add_argument("--ids", action="store_true", help="ids only, one a line")
    trees.set_defaults(module="trees")


def _cases(commands: "Commands") -> None:
    cases = commands.add_parser("cases", help="list the cases on this machine")
    cases.add_argument("--json", action="store_true", help="as JSON")
    cases.add_argument("--ids", action="store_true", help="ids only, one a line")
    cases.set_defaults(module="cases")


def _report(commands: "Commands") -> None:
    report = commands.add_parser("report", help="write the record of a case as Markdown")
    report.add_argument("case", metavar="CASE", help="id of a case, or its beginning or end")
    report.add_argument("--json", action="store_true", help="as JSON")
    report.add_argument(
        "--pictures", metavar="FOLDER", type=_path, help="write drawings of its gauges there"
    )
    report.set_defaults(module="report")


def _check(commands: "Commands") -> None:
    check = commands.add_parser("check", help="find what is wrong with trees and sheets")
    check.add_argument("paths", nargs="+", metavar="PATH", help="a file or a folder")
    check.add_argument("--strict", action="store_true", help="warnings count as errors")
    check.set_defaults(module="check")


def _prove(commands: "Commands") -> None:
    prove = commands.add_parser("prove", help="walk trees under every fault of their circuits")
    prove.add_argument(
        "tree", nargs="+", metavar="TREE", help="id or file of a tree, or a folder of trees"
    )
    _on_vehicle(prove)
    prove.add_argument(
        "--show",
        metavar="FAULT",
        help="the walks of a fault, step by step: a fault, an element, a situation or healthy",
    )
    form = prove.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="as JSON")
    form.add_argument("--junit", action="store_true", help="as JUnit XML")
    prove.set_defaults(module="prove")


def _expect(commands: "Commands") -> None:
    expect = commands.add_parser("expect", help="what a step of a tree would read")
    expect.add_argument("tree", metavar="TREE", help="id, file or folder of a tree")
    expect.add_argument("step", metavar="STEP", help="id of a step")
    expect.add_argument(
        "--battery", metavar="VOLTS", help="with a battery of this voltage, such as 12.4 V"
    )
    _on_vehicle(expect)
    expect.add_argument("--json", action="store_true", help="as JSON")
    expect.set_defaults(module="expect")


def _order(commands: "Commands") -> None:
    order = commands.add_parser("order", help="the tests of a tree in the order of least minutes")
    order.add_argument("tree", metavar="TREE", help="id, file or folder of a tree")
    _on_vehicle(order)
    order.add_argument(
        "--supply",
        choices=("weak", "normal", "charging"),
        default="normal",
        help="the battery of the bench sheet that the cars have",
    )
    order.add_argument(
        "--swap",
        action="append",
        default=[],
        metavar="PART=MINUTES",
        help="the order may put in a known good part and see; may be given several times",
    )
    order.add_argument(
        "--unsure",
        action="append",
        default=[],
        metavar="STEP=PERCENT",
        help="this test is wrong so often by chance: a helper misses a click; several times",
    )
    order.add_argument("--json", action="store_true", help="as JSON")
    order.add_argument(
        "--write", metavar="FILE", type=_path, help="make a draft tree in this order in a new file"
    )
    order.set_defaults(module="order")


def _on_vehicle(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--vehicle",
        metavar="SHEET",
        help="vehicle sheet; the only one beside the tree is taken otherwise; none for no sheet",
    )


def _trace(commands: "Commands") -> None:
    trace = commands.add_parser("trace", help="find the dropouts of a logged trace")
    add_options(trace, _path)


def _calc(commands: "Commands") -> None:
    calc = commands.add_parser("calc", help="a technician's sums: drop, wire, lamp, fuse, battery")
    calc.add_argument("sum", nargs="?", metavar="NAME", help="which sum; without it all are listed")
    calc.add_argument(
        "inputs", nargs="*", metavar="INPUT", help="5m or name=value; without any it tells them"
    )
    calc.add_argument("--units", choices=UNITS, help="units shown and taken for bare numbers")
    calc.add_argument("--json", action="store_true", help="as JSON")
    calc.add_argument("--ids", action="store_true", help="names only, one a line")
    calc.set_defaults(module="calc")


def _gauges(commands: "Commands") -> None:
    gauges = commands.add_parser("gauges", help="low and high side: expected today, and as read")
    gauges_options.add_options(gauges, _path, UNITS)


def _instruments(commands: "Commands") -> None:
    instruments = commands.add_parser("instruments", help="list the instruments and their accuracy")
    instruments.set_defaults(module="instruments")


def _cautions(commands: "Commands") -> None:
    cautions = commands.add_parser("cautions", help="list the cautions a tree can name")
    cautions.set_defaults(module="cautions")


def _completion(commands: "Commands") -> None:
    completion = commands.add_parser("completion", help="print a shell's completion script")
    completion.add_argument("shell", choices=("bash", "zsh", "tcsh"))
    completion.set_defaults(module="completion")
