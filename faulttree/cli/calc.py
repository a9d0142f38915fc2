"""`faulttree calc`: the sums a technician does, one line each."""

import argparse
import sys

from faulttree.cli.exits import CANNOT_RUN, FINE
from faulttree.cli.output import print_json
from faulttree.cli.sums import TROUBLES, as_text, work_out
from faulttree.core.calc.registry import SUMS, find_sum
from faulttree.core.units import UnitSystem
from faulttree.files import places, settings
from faulttree.render.calc import about_lines, result_lines, sums_text
from faulttree.render.calc_json import answered_json, sum_json, sums_json
from faulttree.render.plain_text import safe_line


def run(arguments: argparse.Namespace) -> int:
    """List the sums, tell what one needs, or do it."""
    if arguments.ids:
        print(*SUMS, sep="\n")
        return FINE
    system = UnitSystem(arguments.units) if arguments.units else _chosen_units()
    try:
        text, data = _told(arguments.sum, " ".join(arguments.inputs), system)
    except TROUBLES as error:
        print(safe_line(str(error)), file=sys.stderr)
        return CANNOT_RUN
    if arguments.json:
        print_json(data)
    else:
        print(text)
    return FINE


def _told(name: str | None, line: str, system: UnitSystem) -> tuple[str, object]:
    """What is to be told, as text and as data."""
    if not name:
        return sums_text(), sums_json()
    the_sum = find_sum(name)
    if not line.strip():
        return as_text(about_lines(the_sum, system)), sum_json(the_sum)
    done = work_out(the_sum, line, system)
    return as_text(result_lines(done, system)), answered_json(done)


def _chosen_units() -> UnitSystem:
    return settings.load(places.settings_folder()).units
