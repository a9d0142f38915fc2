"""Where a tree loses minutes against the best order of its tests."""

from collections.abc import Iterator

from faulttree.core.advice.compared import Loss
from faulttree.core.tree import Measure, Observe
from faulttree.render.order_result import OrderResult
from faulttree.render.page import column, count, section, wrapped
from faulttree.render.proof_words import percent

_MOST = 8
"""Steps told; the others lose less."""
_WORTH_MIN = 0.05
"""Steps that lose less for the whole tree are not told [min]."""
_LONGEST = 25


def loss_lines(result: OrderResult) -> Iterator[str]:
    """The steps at which the tree loses most, and those it does that tell no car apart."""
    losses = [loss for loss in result.compared.losses if loss.minutes >= _WORTH_MIN]
    head = "Where the tree loses most: share of the cars, minutes lost for one that comes there"
    yield from section(head, _losses(losses))
    head = "Done all the same, and tell none of these cars apart: share, own minutes"
    yield from section(head, _idle(result))


def _losses(losses: list[Loss]) -> Iterator[str]:
    told = losses[:_MOST]
    wide = column((loss.step_id for loss in told), _LONGEST)
    for loss in told:
        minutes = f"{loss.regret.most:.1f}"
        if not loss.regret.is_proven:
            minutes = f"{loss.regret.least:.1f} to {minutes}"
        first = f"  {percent(loss.share):>7} {minutes:>12}  {loss.step_id:<{wide}}  "
        yield from wrapped(f"better: {loss.better}", first)
    if len(losses) > _MOST:
        yield f"  {count(len(losses) - _MOST, 'step')} more that lose less"


def _idle(result: OrderResult) -> Iterator[str]:
    rows = result.compared.tellings
    weights = dict(zip(rows.cars, (row.weight for row in rows.rows), strict=True))
    whole = sum(weights.values())
    for name in result.aside.idle:
        step = result.bench.tree.steps[name]
        cars = result.compared.tree.comes_to.get(name, frozenset())
        if not cars or not isinstance(step, Measure | Observe):
            continue
        own = result.bench.sheet.tests[name].minutes
        minutes = step.minutes if own is None else own
        share = percent(sum(weights[car] for car in cars) / whole)
        yield from wrapped(name, f"  {share:>7} {minutes:>12.1f}  ")
