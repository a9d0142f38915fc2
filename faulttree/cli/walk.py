"""`faulttree walk` and `faulttree resume`: one case, full screen or line by line."""

import argparse
import io
import json
import os
import sys

from faulttree.cli.exits import CANNOT_RUN, FINDINGS, FINE
from faulttree.cli.opening import CannotOpenError, open_tree, own_instruments
from faulttree.cli.plain import PlainWalk, Source, answer_lines, typed_lines
from faulttree.core.walk.events import Complaint, Intake
from faulttree.files import cases, places, settings
from faulttree.files.answers import Answers, AnswersError, load_answers
from faulttree.files.documents import DocumentError
from faulttree.render.problems import problems_as_text
from faulttree.session import Beginning, Session


def run(arguments: argparse.Namespace) -> int:
    """Begin a case with a tree, or go on with one."""
    try:
        given = load_answers(arguments.answers) if arguments.answers else None
        session = _resume(arguments.case) if arguments.command == "resume" else _begin(arguments)
    except DocumentError as error:
        sys.stderr.write(problems_as_text([error.problems]))
        print(error, file=sys.stderr)
        return CANNOT_RUN
    except (CannotOpenError, AnswersError, cases.CaseError) as error:
        print(error, file=sys.stderr)
        return CANNOT_RUN
    if given or arguments.plain or arguments.json or not full_screen_possible():
        return _walk_plain(session, given, arguments.json)
    from faulttree.ui.app import run_walk

    return run_walk(session)


def full_screen_possible() -> bool:
    """True on a terminal that can be drawn on."""
    is_terminal = sys.stdin.isatty() and sys.stdout.isatty() and sys.stderr.isatty()
    return is_terminal and os.environ.get("TERM", "") not in ("", "dumb")


def _begin(arguments: argparse.Namespace) -> Session:
    opened = open_tree(arguments.tree, arguments.vehicle)
    chosen = settings.load(places.settings_folder())
    intake = Intake(
        words=arguments.words,
        car=arguments.car,
        customer=arguments.customer,
        technician=arguments.technician or chosen.technician,
    )
    units = arguments.units or chosen.units
    beginning = Beginning(opened.tree, opened.vehicle, intake, units, own_instruments())
    return Session.begin(places.cases_folder(), beginning)


def _resume(name: str) -> Session:
    return Session.resume(cases.find(places.cases_folder(), name))


def _walk_plain(session: Session, given: Answers | None, as_json: bool) -> int:
    out = io.StringIO() if as_json and given else sys.stderr if as_json else sys.stdout
    source: Source = typed_lines(sys.stdin, out)
    if given:
        if given.complaint:
            session.set_complaint(Complaint(given.complaint))
        steps = {step: iter(lines) for step, lines in given.answers.items()}
        source = answer_lines(steps, dict(given.vehicle), given.battery)
    elif out is sys.stdout:
        print(f"Case {session.id}. Type help for what can be typed.")
    PlainWalk(session, source, out).run()
    if as_json:
        from faulttree.render.report_json import report_json

        json.dump(report_json(session.state, session.id), sys.stdout, indent=1, ensure_ascii=False)
        print()
    at = session.position
    concluded = at.step_id in session.state.concluded
    if given and not concluded:
        print(f"Stopped at {at.step_id}: no answer for it.", file=sys.stderr)
        return FINDINGS
    return FINE
