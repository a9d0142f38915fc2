"""`faulttree completion`: a completion script, made from the command line itself by shtab."""

import argparse

from faulttree.cli.exits import FINE

_BASH_TREES = """
_faulttree_trees() { compgen -W "$(faulttree trees --ids 2>/dev/null)" -- "$1"; }
"""


def run(arguments: argparse.Namespace) -> int:
    """Print the script for one shell."""
    import shtab

    from faulttree.cli.main import parser

    top = parser()
    print(shtab.complete(top, arguments.shell))
    return FINE
