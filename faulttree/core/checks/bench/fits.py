"""unknown-fit, missing-entry: what the sheet fits is not what the tree's do steps leave fitted."""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet
from faulttree.core.checks.finding import Finding, nearest
from faulttree.core.tree import Do, Tree


def check(sheet: BenchSheet, tree: Tree) -> Iterator[Finding]:
    """Everything that is left fitted has its entry, and no entry is about something else."""
    fitted = [n for s in tree.steps.values() if isinstance(s, Do) for n in s.fits]
    unknown = [name for name in sheet.fits if name not in fitted]
    for name in unknown:
        message = f"no do step of the tree fits {name}"
        yield Finding("unknown-fit", ("fits", name), message, nearest(name, fitted), on_key=True)
    for name in dict.fromkeys(fitted):
        if name not in sheet.fits and not unknown:
            message = f"{name} of the tree has no entry under fits"
            help = f"Add {name}: with its bridges, or {{}} where it changes nothing on the circuit."
            yield Finding("missing-entry", ("fits",), message, help, on_key=True)
