"""`faulttree order`: the tests of a tree in the order that takes the least minutes."""

import argparse
import json
import sys
from datetime import date
from pathlib import Path

from faulttree.cli.bench import TROUBLES, put_on_bench, words_for
from faulttree.cli.exits import CANNOT_RUN, FINE
from faulttree.cli.instruments import own_or_usual
from faulttree.core.advice.compared import Compared, compare, compare_unsure
from faulttree.core.advice.draft import CannotDraft, Draft
from faulttree.core.advice.drafting import draft_of
from faulttree.core.advice.ends import Ends
from faulttree.core.advice.not_counted import not_counted
from faulttree.core.advice.outcomes import HEALTHY, Tellings, tellings
from faulttree.core.bench.bench import Bench
from faulttree.core.checks.finding import nearest
from faulttree.core.order.problem import CannotOrder
from faulttree.core.proof.judged import Judge
from faulttree.files.benches import OnBench, open_bench
from faulttree.files.drafts import Written, files_of_draft, write_draft
from faulttree.files.library import find_tree
from faulttree.render.order_json import order_json
from faulttree.render.order_result import OrderResult
from faulttree.render.order_text import order_text, written_text
from faulttree.render.troubles import why_not


def run(arguments: argparse.Namespace) -> int:
    """Tell how a tree compares with the best order of its tests, and draft a tree from that."""
    try:
        if arguments.write:
            if arguments.swap:
                raise CannotDraft("A draft holds tests alone: leave out --swap to write one.")
            if arguments.unsure:
                raise CannotDraft("A draft holds sure tests: leave out --unsure to write one.")
            files_of_draft(arguments.write)
        opened = open_bench(find_tree(arguments.tree), arguments.vehicle)
        if arguments.unsure and arguments.swap:
            raise CannotOrder("Unsure tests and swaps are not ordered together: leave one out.")
        bench, result = _worked_out(opened, arguments.supply, arguments.swap, arguments.unsure)
        _tell(result, as_json=arguments.json)
        if arguments.write:
            draft = draft_of(bench, result.ends, result.compared.best.plan)
            written = _write(opened, draft, arguments.write)
            paths = [str(path) for path in written.paths]
            sys.stderr.write(written_text(draft, paths, written.warnings))
    except (*TROUBLES, CannotOrder, CannotDraft) as error:
        print(why_not(error), file=sys.stderr)
        return CANNOT_RUN
    return FINE


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
        tests = {test.step_id for test in told.tests}
        compared = compare_unsure(bench, judge, told, dict(_unsure(each, tests) for each in unsure))
    else:
        compared = _compared(bench, judge, told, swaps)
    aside, ends = not_counted(bench, told), Ends(bench, told)
    return bench, OrderResult(bench, supply, compared, aside, ends, words_for(opened, own))


def _compared(bench: Bench, judge: Judge, told: Tellings, swaps: list[str]) -> Compared:
    parts = {row.suspect.part for row in told.rows if row.suspect and row.suspect is not HEALTHY}
    return compare(bench, judge, told, swaps=dict(_swap(each, parts) for each in swaps))


def _unsure(written: str, tests: set[str]) -> tuple[str, float]:
    """A test and the probability that it is wrong, as written: `clicks=10`."""
    name, _, share = (piece.strip().removesuffix("%").strip() for piece in written.rpartition("="))
    if name not in tests:
        raise CannotOrder(f"No step that tells cars apart is “{name}”. {nearest(name, tests)}")
    try:
        found = float(share)
    except ValueError:
        found = -1.0
    if not 0 < found <= 50:
        raise CannotOrder(
            f"“{written}”: write the step and how often it is wrong, in percent from above 0 to "
            f"50, for example {name}=10."
        )
    return name, found / 100


def _swap(written: str, parts: set[str]) -> tuple[str, float]:
    """A part and the minutes of putting in a known good one, as written: `relay=5`."""
    part, _, minutes = (piece.strip() for piece in written.rpartition("="))
    if part not in parts:
        raise CannotOrder(f"No part is called “{part}”. {nearest(part, parts)}")
    try:
        found = float(minutes)
    except ValueError:
        found = -1.0
    if not 0 <= found <= 600:
        raise CannotOrder(f"“{written}”: write the part and its minutes, for example {part}=5.")
    return part, found


def _tell(result: OrderResult, as_json: bool) -> None:
    if as_json:
        json.dump(order_json(result), sys.stdout, indent=1, allow_nan=False)
        print()
    else:
        sys.stdout.write(order_text(result))
    sys.stdout.flush()


def _write(opened: OnBench, draft: Draft, path: Path) -> Written:
    return write_draft(opened, draft, path, date.today().isoformat())
