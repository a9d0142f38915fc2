"""`faulttree report`: the written record of a case."""

import argparse
import sys
from pathlib import Path

from faulttree.case_bench.documents import CaseDocuments
from faulttree.case_bench.suspects import CaseSuspects
from faulttree.cli.exits import CANNOT_RUN, FINE
from faulttree.cli.output import print_json
from faulttree.core.walk.state import WalkState
from faulttree.files import cases, places
from faulttree.files.documents import DocumentError
from faulttree.files.walks import walk_of
from faulttree.render.report_gauges import gauges_to_report
from faulttree.render.report_json import report_json
from faulttree.render.report_markdown import report_markdown
from faulttree.render.troubles import why_not

_NO_PICTURES = "There are no pictures: no gauge was read in this case."


def run(arguments: argparse.Namespace) -> int:
    """Write the report of a case to stdout, and its pictures into a folder."""
    try:
        stored = cases.read_case(cases.find(places.cases_folder(), arguments.case))
        walk = walk_of(stored)
        pictures = _pictures(walk.state, stored.id, arguments.pictures)
    except (cases.CaseError, DocumentError, OSError) as error:
        print(why_not(error), file=sys.stderr)
        return CANNOT_RUN
    suspects = CaseSuspects(CaseDocuments(stored.folder))
    if arguments.json:
        data = report_json(walk.state, stored.id, suspects.report_data(walk.state))
        print_json(data | ({"pictures": pictures} if pictures else {}))
    else:
        say = suspects.report_lines(walk.state)
        text = report_markdown(
            walk.state, stored.id, walk.found, readings_say=say, pictures=pictures
        )
        sys.stdout.write(text)
    return FINE


def _pictures(state: WalkState, case_id: str, folder: Path | None) -> dict[str, str]:
    """Write the drawings of a case, if they are wanted; where they are, by their names.

    Raises:
        OSError: they cannot be written.
    """
    if folder is None:
        return {}
    on = gauges_to_report(state)
    if on is None:
        print(_NO_PICTURES, file=sys.stderr)
        return {}
    from faulttree.files.pictures import write_pictures
    from faulttree.render.gauge_drawings import drawings

    drawn = drawings(on, state.units)
    written = write_pictures(folder, case_id, drawn, may_replace=True)
    return {name: path.as_posix() for name, path in written.items()}
