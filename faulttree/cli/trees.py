"""`faulttree trees`: the trees at hand, or those that fit a customer's words."""

import argparse
import sys

from faulttree.cli.exits import FINDINGS, FINE
from faulttree.core.search import search
from faulttree.files.library import TreeEntry, list_trees
from faulttree.render.plain_text import safe_line


def run(arguments: argparse.Namespace) -> int:
    """List the trees, best fit first."""
    entries = {entry.id: entry for entry in list_trees()}
    usable = [entry.words for entry in entries.values() if not entry.trouble]
    found = [entries[key] for key in search(usable, " ".join(arguments.words))]
    for entry in found:
        print(entry.id if arguments.ids else _line(entry))
    for entry in entries.values():
        if entry.trouble:
            print(f"{entry.path}: {safe_line(entry.trouble)}", file=sys.stderr)
    if not found:
        print("No tree fits these words.", file=sys.stderr)
    return FINE if found else FINDINGS


def _line(entry: TreeEntry) -> str:
    head = f"{entry.id}  {entry.version}  {entry.title}"
    words = "\n".join(f"    “{safe_line(c)}”" for c in entry.complaint)
    return f"{safe_line(head)}\n    {safe_line(entry.system)}\n{words}"
