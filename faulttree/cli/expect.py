"""`faulttree expect`: what a step of a tree would read, on a healthy car and under every fault."""

import argparse
import sys
from collections.abc import Mapping

from faulttree.cli.bench import TROUBLES, put_on_bench, words_for
from faulttree.cli.exits import CANNOT_RUN, FINE
from faulttree.cli.instruments import own_or_usual
from faulttree.cli.output import print_json
from faulttree.core.bench.document import NORMAL
from faulttree.core.bench.looks import Supplied, supplied
from faulttree.core.checks.finding import nearest
from faulttree.core.circuit.netlist import Supply
from faulttree.core.proof.expected import expected_at
from faulttree.core.reading import ReadingRefused, parse_reading
from faulttree.core.tree import Measure, Observe, Tree, WorkOut
from faulttree.core.units import Quantity
from faulttree.files.benches import OnBench, open_bench
from faulttree.files.library import find_tree
from faulttree.render.days import day_lines
from faulttree.render.expected import expected_text
from faulttree.render.expected_json import expected_json
from faulttree.render.troubles import why_not

INTERNAL_OHM = 0.01
"""Internal resistance of the battery that --battery names: that of a good one [ohm]."""
HIGHEST_V = 60.0
"""The highest battery voltage taken [V]: above it these trees do not apply."""


def run(arguments: argparse.Namespace) -> int:
    """Tell what a step would read."""
    try:
        opened = open_bench(find_tree(arguments.tree), arguments.vehicle)
        supplies = _supplies(arguments.battery, opened)
        tree, step_id = opened.tree.document, arguments.step
        _must_read(tree, step_id)
    except (*TROUBLES, _Refused, ReadingRefused) as error:
        print(why_not(error), file=sys.stderr)
        return CANNOT_RUN
    own = own_or_usual()
    bench, judge = put_on_bench(opened, own, supplies)
    cars = expected_at(bench, judge, step_id)
    if arguments.json:
        print_json(expected_json(tree, step_id, cars))
    else:
        words, model = words_for(opened, own), opened.circuit.document
        days = day_lines(supplies or supplied(opened.sheet.document, model), model, words)
        sys.stdout.write(expected_text(step_id, cars, words, days))
    return FINE


class _Refused(Exception):
    """What was asked for makes no sense; the message says why."""


def _supplies(battery: str | None, opened: OnBench) -> Mapping[str, Supplied] | None:
    """One battery of the voltage typed, in place of those of the bench sheet, on its normal day.

    Raises:
        ReadingRefused: it is no voltage.
        _Refused: no battery of these cars has it.
    """
    if battery is None:
        return None
    entry = parse_reading(battery, Quantity.VOLTAGE)
    if not 0.0 < entry.value <= HIGHEST_V:
        raise _Refused(f"{entry.text} is no battery of these cars; type its voltage, as 12.4 V.")
    supply = Supply(entry.value, INTERNAL_OHM)
    day = supplied(opened.sheet.document, opened.circuit.document)[NORMAL].day
    return {f"as read, {entry.value:g} V": Supplied(supply, supply, day)}


def _must_read(tree: Tree, step_id: str) -> None:
    """Raises _Refused where a step is not there, or nothing is read or seen at it."""
    step = tree.steps.get(step_id)
    if step is None:
        raise _Refused(f"{tree.id} has no step “{step_id}”. {nearest(step_id, tree.steps)}")
    if not isinstance(step, Measure | Observe | WorkOut):
        what = "something is done" if step.kind == "do" else "the walk ends"
        raise _Refused(f"At {step_id} {what}, and nothing is read that could be expected.")
