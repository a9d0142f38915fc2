"""`faulttree cautions`: the catalogue of cautions, for authors."""

import argparse

from faulttree.cli.exits import FINE
from faulttree.core.cautions import CAUTIONS


def run(_arguments: argparse.Namespace) -> int:
    """List every caution with its source."""
    for name, caution in CAUTIONS.items():
        print(f"{name}: {caution.text} [{caution.source}]")
    return FINE
