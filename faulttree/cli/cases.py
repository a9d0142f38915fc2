"""`faulttree cases`: the cases on this machine, open ones first."""

import argparse
import sys
from dataclasses import asdict

from faulttree.cli.exits import FINE
from faulttree.cli.output import print_json
from faulttree.files import cases, places
from faulttree.files.cases import CaseSummary
from faulttree.render.plain_text import safe_line


def run(arguments: argparse.Namespace) -> int:
    """List the cases."""
    found = sorted(cases.summaries(places.cases_folder()), key=lambda c: c.closed)
    if arguments.json:
        print_json([asdict(case) for case in found])
        return FINE
    for case in found:
        print(case.id if arguments.ids else _line(case))
    if not found:
        print("No cases yet.", file=sys.stderr)
    return FINE


def _line(case: CaseSummary) -> str:
    state = "closed" if case.closed else "open"
    words = f"“{safe_line(case.words)}”" if case.words else ""
    parts = (case.id, state, f"{case.events} events", safe_line(case.car), words)
    line = "  ".join(p for p in parts if p)
    return f"{line}\n    {safe_line(case.trouble)}" if case.trouble else line
