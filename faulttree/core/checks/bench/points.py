"""unknown-point, unused-lead: the sheet gives a node to a place that the tree does not name."""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet
from faulttree.core.checks.finding import Finding, nearest
from faulttree.core.tree import Measure, Observe, Tree


def check(sheet: BenchSheet, tree: Tree) -> Iterator[Finding]:
    """Points stand under the tree's needs, lead texts in its steps."""
    for point in stray_points(sheet, tree):
        message, help = f"the tree needs no point {point}", nearest(point, tree.needs.points)
        yield Finding("unknown-point", ("points", point), message, help, on_key=True)
    for text in stray_leads(sheet, tree):
        message = f"no step of the tree has its lead at “{text}”"
        help = nearest(text, (t for step in tree.steps.values() for t in _texts(step)))
        yield Finding("unused-lead", ("leads", text), message, help, "warning", on_key=True)


def stray_points(sheet: BenchSheet, tree: Tree) -> list[str]:
    """Points of the sheet that the tree does not need."""
    return [point for point in sheet.points if point not in tree.needs.points]


def stray_leads(sheet: BenchSheet, tree: Tree) -> list[str]:
    """Lead texts of the sheet that the tree does not have."""
    used = {_plain(text) for step in tree.steps.values() for text in _texts(step)}
    return [text for text in sheet.leads if _plain(text) not in used]


def _texts(step: object) -> Iterator[str]:
    if isinstance(step, Measure | Observe):
        yield from (text for text in (step.red_lead, step.black_lead, step.at) if text)


def _plain(text: str) -> str:
    return " ".join(text.split()).casefold()
