"""`faulttree report`: the written record of a case."""

import argparse
import json
import sys

from faulttree.cli.exits import CANNOT_RUN, FINE
from faulttree.core.walk.events import event_from_json
from faulttree.core.walk.state import WalkState, fold
from faulttree.files import cases, places
from faulttree.files.documents import DocumentError, tree_from_bytes, vehicle_from_bytes
from faulttree.render.problems import problems_as_text
from faulttree.render.report_json import report_json
from faulttree.render.report_markdown import report_markdown


def run(arguments: argparse.Namespace) -> int:
    """Write the report of a case to stdout."""
    try:
        stored = cases.read_case(cases.find(places.cases_folder(), arguments.case))
        state = state_of(stored)
    except cases.CaseError as error:
        print(error, file=sys.stderr)
        return CANNOT_RUN
    except DocumentError as error:
        sys.stderr.write(problems_as_text([error.problems]))
        print(error, file=sys.stderr)
        return CANNOT_RUN
    if arguments.json:
        json.dump(report_json(state, stored.id), sys.stdout, indent=1, ensure_ascii=False)
        print()
    else:
        sys.stdout.write(report_markdown(state, stored.id, stored.found))
    return FINE


def state_of(stored: cases.StoredCase) -> WalkState:
    """The state of a stored case; raises DocumentError when its tree cannot be read."""
    tree = tree_from_bytes(stored.tree, f"{stored.id}/{cases.TREE}").document
    sheet = None
    if stored.vehicle is not None:
        sheet = vehicle_from_bytes(stored.vehicle, f"{stored.id}/{cases.VEHICLE}").document
    return fold(tree, sheet, [event_from_json(record) for record in stored.records])
