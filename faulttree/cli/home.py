"""`faulttree` without a command: the home screen."""

import argparse
import os
import sys

from faulttree.cli.exits import CANNOT_RUN


def run(_arguments: argparse.Namespace) -> int:
    """Open the home screen where there is a terminal to draw on."""
    is_terminal = sys.stdin.isatty() and sys.stdout.isatty() and sys.stderr.isatty()
    if not is_terminal or os.environ.get("TERM", "") in ("", "dumb"):
        print(
            "The home screen needs a terminal. faulttree trees WORDS finds a tree, "
            "faulttree walk TREE --plain walks it line by line.",
            file=sys.stderr,
        )
        return CANNOT_RUN
    from faulttree.ui.app import run_home

    return run_home()
