"""`faulttree` without a command: the home screen."""

import argparse
import sys

from faulttree.cli import terminal
from faulttree.cli.exits import CANNOT_RUN


def run(_arguments: argparse.Namespace) -> int:
    """Open the home screen where there is a terminal to draw on."""
    if not (terminal.is_terminal() and terminal.is_unicode()):
        print(
            "The home screen needs a terminal with a UTF-8 locale. faulttree trees WORDS finds a "
            "tree, faulttree walk TREE --plain walks it line by line.",
            file=sys.stderr,
        )
        return CANNOT_RUN
    from faulttree.ui.app import run_home

    return run_home()
