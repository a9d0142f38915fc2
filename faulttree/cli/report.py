"""`faulttree report`: the written record of a case."""

import argparse
import sys

from faulttree.case_bench.documents import CaseDocuments
from faulttree.case_bench.suspects import CaseSuspects
from faulttree.cli.exits import CANNOT_RUN, FINE
from faulttree.cli.output import print_json
from faulttree.files import cases, places
from faulttree.files.documents import DocumentError
from faulttree.files.walks import walk_of
from faulttree.render.report_json import report_json
from faulttree.render.report_markdown import report_markdown
from faulttree.render.troubles import why_not


def run(arguments: argparse.Namespace) -> int:
    """Write the report of a case to stdout."""
    try:
        stored = cases.read_case(cases.find(places.cases_folder(), arguments.case))
        walk = walk_of(stored)
    except (cases.CaseError, DocumentError) as error:
        print(why_not(error), file=sys.stderr)
        return CANNOT_RUN
    suspects = CaseSuspects(CaseDocuments(stored.folder))
    if arguments.json:
        data = suspects.report_data(walk.state)
        print_json(report_json(walk.state, stored.id, data))
    else:
        say = suspects.report_lines(walk.state)
        sys.stdout.write(report_markdown(walk.state, stored.id, walk.found, readings_say=say))
    return FINE
