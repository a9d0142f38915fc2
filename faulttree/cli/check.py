"""`faulttree check`: everything that is wrong with trees and sheets, all at once."""

import argparse
import sys
from pathlib import Path

from faulttree.cli.exits import CANNOT_RUN, FINDINGS, FINE


def run(arguments: argparse.Namespace) -> int:
    """Check every document named; folders are searched."""
    from faulttree.files.documents import check_file
    from faulttree.files.places import yaml_files
    from faulttree.render.problems import problems_as_text, summary

    files = [file for name in arguments.paths for file in yaml_files(Path(name))]
    if not files:
        print("No .yaml file there to check.", file=sys.stderr)
        return CANNOT_RUN
    results = [check_file(file) for file in files]
    sys.stdout.write(problems_as_text(results))
    print(summary(results), file=sys.stderr)
    if any(p.check == "unreadable-file" for r in results for p in r.problems):
        return CANNOT_RUN
    failed = any(r.has_errors or (arguments.strict and r.problems) for r in results)
    return FINDINGS if failed else FINE
