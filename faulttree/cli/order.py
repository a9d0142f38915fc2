"""`faulttree order`: the tests of a tree in the order that takes the least minutes."""

import argparse
import math
import sys
from datetime import date

from faulttree.cli.bench import TROUBLES, put_on_bench, words_for
from faulttree.cli.exits import CANNOT_RUN, FINE
from faulttree.cli.instruments import own_or_usual
from faulttree.cli.output import print_json
from faulttree.core.advice.compared import compare, compare_unsure
from faulttree.core.advice.draft import CannotDraft
from faulttree.core.advice.drafting import draft_of
from faulttree.core.advice.ends import Ends
from faulttree.core.advice.not_counted import not_counted
from faulttree.core.advice.outcomes import HEALTHY, Tellings, tellings
from faulttree.core.bench.bench import Bench
from faulttree.core.checks.finding import nearest
from faulttree.core.order.problem import CannotOrder
from faulttree.files.benches import OnBench, open_bench
from faulttree.files.drafts import files_of_draft, write_draft
from faulttree.files.library import find_tree
from faulttree.render.order_json import order_json
from faulttree.render.order_result import OrderResult
from faulttree.render.order_text import order_text, written_text
from faulttree.render.troubles import why_not


def run(arguments: argparse.Namespace) -> int:
    """Tell how a tree compares with the best order of its tests, and draft a tree from that."""
    try:
        _refuse_together(arguments)
        if arguments.write:
            files_of_draft(arguments.write)
        opened = open_bench(find_tree(arguments.tree), arguments.vehicle)
        bench, result = _worked_out(opened, arguments.supply, arguments.swap, arguments.unsure)
        _tell(result, as_json=arguments.json)
        if arguments.write:
            draft = draft_of(bench, result.ends, result.compared.best.plan)
            written = write_draft(opened, draft, arguments.write, date.today().isoformat())
            paths = [str(path) for path in written.paths]
            sys.stderr.write(written_text(draft, paths, written.warnings))
    except (*TROUBLES, CannotOrder, CannotDraft) as error:
        print(why_not(error), file=sys.stderr)
        return CANNOT_RUN
    return FINE


def _refuse_together(arguments: argparse.Namespace) -> None:
    """Options that do not go together."""
    if arguments.unsure and arguments.swap:
        raise CannotOrder("Unsure tests and swaps are not ordered together: leave one out.")
    if arguments.write and arguments.swap:
        raise CannotDraft("A draft holds tests alone: leave out --swap to write one.")
    if arguments.write and arguments.unsure:
        raise CannotDraft("A draft holds sure tests: leave out --unsure to write one.")


def _worked_out(
    opened: OnBench, supply: str, swaps: list[str], unsure: list[str]
) -> tuple[Bench, OrderResult]:
    own = own_or_usual()
    bench, judge = put_on_bench(opened, own)
    told = tellings(bench, judge, supply)
    if not told.cars:
        raise CannotOrder(
            f"No fault surely shows the complaint with the {supply} battery, so there is nothing "
            "to tell apart: look at complaint in the bench sheet."
        )
    if unsure:
        shares = dict(_unsure(each, told) for each in unsure)
        compared = compare_unsure(bench, judge, told, shares)
    else:
        minutes = dict(_swap(each, told) for each in swaps)
        compared = compare(bench, judge, told, swaps=minutes)
    aside, ends = not_counted(bench, told), Ends(bench, told)
    return bench, OrderResult(bench, supply, compared, aside, ends, words_for(opened, own))


def _unsure(written: str, told: Tellings) -> tuple[str, float]:
    """A test and the probability that it is wrong, as written: `clicks=10`."""
    name, percent = _name_and_number(written)
    tests = {test.step_id for test in told.tests}
    if name not in tests:
        raise CannotOrder(f"No step that tells cars apart is “{name}”. {nearest(name, tests)}")
    if not 0 < percent <= 50:
        raise CannotOrder(
            f"“{written}”: write the step and how often it is wrong, in percent from above 0 to "
            f"50, for example {name}=10."
        )
    return name, percent / 100


def _swap(written: str, told: Tellings) -> tuple[str, float]:
    """A part and the minutes of putting in a known good one, as written: `relay=5`."""
    name, minutes = _name_and_number(written)
    suspects = (row.suspect for row in told.rows)
    parts = {suspect.part for suspect in suspects if suspect and suspect is not HEALTHY}
    if name not in parts:
        raise CannotOrder(f"No part is called “{name}”. {nearest(name, parts)}")
    if not 0 <= minutes <= 600:
        raise CannotOrder(f"“{written}”: write the part and its minutes, for example {name}=5.")
    return name, minutes


def _name_and_number(written: str) -> tuple[str, float]:
    """What stands on either side of the last `=`; what is no number is told as not one (NaN)."""
    name, _, number = written.rpartition("=") if "=" in written else (written, "", "")
    try:
        return name.strip(), float(number.strip().removesuffix("%"))
    except ValueError:
        return name.strip(), math.nan


def _tell(result: OrderResult, as_json: bool) -> None:
    if as_json:
        print_json(order_json(result))
    else:
        sys.stdout.write(order_text(result))
    sys.stdout.flush()
