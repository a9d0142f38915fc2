"""unknown-point: the sheet gives a node to a point that the tree does not need."""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet
from faulttree.core.checks.finding import Finding, nearest
from faulttree.core.tree import Tree


def check(sheet: BenchSheet, tree: Tree) -> Iterator[Finding]:
    """One finding for each point that does not stand under the tree's needs."""
    for point in stray_points(sheet, tree):
        message, help = f"the tree needs no point {point}", nearest(point, tree.needs.points)
        yield Finding("unknown-point", ("points", point), message, help, on_key=True)


def stray_points(sheet: BenchSheet, tree: Tree) -> list[str]:
    """Points of the sheet that the tree does not need."""
    return [point for point in sheet.points if point not in tree.needs.points]
