"""The small lamp of a load bay beside the best order of its tests."""

from functools import cache

from proofs import Changes, cargo, words

from faulttree.core.advice.compared import compare
from faulttree.core.advice.draft import Draft
from faulttree.core.advice.drafting import draft_of
from faulttree.core.advice.ends import Ends
from faulttree.core.advice.not_counted import not_counted
from faulttree.core.advice.outcomes import tellings
from faulttree.render.order_result import OrderResult

SHARED: Changes = (
    ("isolation: 80 %\n", "isolation: 80 %\naccess: {panel: {words: panel off, minutes: 4}}\n"),
    ("  lamp-feed: {}\n", "  lamp-feed: {needs: [panel], minutes: 1}\n"),
    ("  ground-drop: {}\n", "  ground-drop: {needs: [panel], minutes: 1}\n"),
)
"""Two tests share a panel that has to come off."""
REFERRING: Changes = (
    (
        "{name: sound, is: good, below: 0.5 V, go: filament, means",
        "{name: sound, is: good, below: 0.2 * switch-feed, go: filament, means",
    ),
)
"""The ground is judged by a reading that the best order takes later, or not at all."""


@cache
def cargo_order(changes: Changes = (), only_ascii: bool = False) -> OrderResult:
    """The example beside the best order."""
    bench, judge = cargo(changes)
    told = tellings(bench, judge)
    compared = compare(bench, judge, told)
    shown = words(bench.tree, only_ascii)
    return OrderResult(
        bench, "normal", compared, not_counted(bench, told), Ends(bench, told), shown
    )


def cargo_draft(changes: Changes = ()) -> Draft:
    """The example's draft in outline."""
    result = cargo_order(changes)
    return draft_of(result.bench, result.ends, result.compared.best.plan)
