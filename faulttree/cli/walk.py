"""`faulttree walk` and `faulttree resume`: one case, full screen or line by line."""

import argparse
import io
import sys

from faulttree.beginning import Beginning
from faulttree.cli import terminal
from faulttree.cli.exits import CANNOT_RUN, FINDINGS, FINE
from faulttree.cli.instruments import own_or_usual
from faulttree.cli.output import print_json
from faulttree.cli.plain import PlainWalk
from faulttree.cli.plain_sources import Source, answer_lines, typed_lines
from faulttree.core.walk.events import INTAKE_LABELS, Intake
from faulttree.files import cases, places, settings
from faulttree.files.answers import Answers, AnswersError, load_answers
from faulttree.files.documents import DocumentError
from faulttree.files.library import NoSuchTreeError
from faulttree.files.opening import SeveralSheetsError, open_tree
from faulttree.files.shop import shop_instruments
from faulttree.render.troubles import why_not
from faulttree.session import Session

_TROUBLES = (
    DocumentError,
    NoSuchTreeError,
    SeveralSheetsError,
    AnswersError,
    cases.CaseError,
    OSError,
)


def run(arguments: argparse.Namespace) -> int:
    """Begin a case with a tree, or go on with one."""
    try:
        given = load_answers(arguments.answers) if arguments.answers else None
        session = _resume(arguments.case) if arguments.command == "resume" else _begin(arguments)
    except _TROUBLES as error:
        print(why_not(error), file=sys.stderr)
        return CANNOT_RUN
    if given or arguments.plain or arguments.json or not terminal.full_screen_possible():
        return _walk_plain(session, given, arguments.json)
    from faulttree.ui.app import run_walk

    return run_walk(session)


def _begin(arguments: argparse.Namespace) -> Session:
    opened = open_tree(arguments.tree, arguments.vehicle)
    chosen = settings.load(places.settings_folder())
    intake = _intake(arguments, chosen.technician)
    units = arguments.units or chosen.units
    beginning = Beginning(
        opened.tree, opened.vehicle, intake, units, own_or_usual(), opened.circuit
    )
    return Session.begin(places.cases_folder(), beginning)


def _intake(arguments: argparse.Namespace, technician: str) -> Intake:
    """What the command line tells, and what a person in plain mode is asked for besides."""
    given = {name: getattr(arguments, name) for name in INTAKE_LABELS}
    given["technician"] = given["technician"] or technician
    asks = arguments.plain and sys.stdin.isatty() and not arguments.answers and not arguments.json
    if asks:
        print("Everything may be left empty.")
        for name, label in INTAKE_LABELS.items():
            given[name] = given[name] or _line(label)
    return Intake.model_validate(given)


def _line(question: str) -> str:
    print(f"{question}: ", end="", flush=True)
    return sys.stdin.readline().strip()


def _resume(name: str) -> Session:
    return Session.resume(cases.find(places.cases_folder(), name))


def _walk_plain(session: Session, given: Answers | None, as_json: bool) -> int:
    out = io.StringIO() if as_json and given else sys.stderr if as_json else sys.stdout
    source: Source = typed_lines(sys.stdin, out)
    if given:
        if given.complaint:
            PlainWalk(session, source, out).commands.complaint(given.complaint)
        steps = {step: iter(lines) for step, lines in given.answers.items()}
        source = answer_lines(steps, dict(given.vehicle), given.battery)
    elif out is sys.stdout:
        print(f"Case {session.id}. Type help for what can be typed.")
    PlainWalk(session, source, out, shop_instruments()).run()
    if as_json:
        from faulttree.render.report_json import report_json

        print_json(report_json(session.state, session.id))
    at = session.position
    concluded = at.step_id in session.state.concluded
    if given and not concluded:
        print(f"Stopped at {at.step_id}: no answer for it.", file=sys.stderr)
        return FINDINGS
    return FINE
