"""A tree beside the order of its tests that takes the least minutes."""

from collections.abc import Mapping
from dataclasses import dataclass

from faulttree.core.advice.as_problem import READY, problem_of
from faulttree.core.advice.outcomes import Tellings
from faulttree.core.advice.tree_path import TreeMinutes, tree_minutes
from faulttree.core.bench.bench import Bench
from faulttree.core.order.following import SoFar
from faulttree.core.order.plan import Range
from faulttree.core.order.planner import Ordered, Planner
from faulttree.core.order.problem import CannotOrder, Limits
from faulttree.core.order.unsure import order_unsure
from faulttree.core.proof.judged import Judge
from faulttree.core.tree import Tree

ORDER_LIMITS = Limits(expansions=60_000)
"""Work for the best order of a whole tree; some seconds."""

WHOLE_TREE_UNSURE = Limits(expansions=6_000)
"""The same where tests may be wrong."""


@dataclass(frozen=True, slots=True)
class Loss:
    """A step at which the tree loses minutes.

    Attributes:
        step_id: the step.
        share: share of the weight that comes to it.
        better: the test that takes least from there.
        regret: mean minutes that the step takes more, for the cars that come there [min].
    """

    step_id: str
    share: float
    better: str
    regret: Range

    @property
    def minutes(self) -> float:
        """What it adds to the mean of the whole tree, at most [min]."""
        return self.share * self.regret.most


@dataclass(frozen=True, slots=True)
class Compared:
    """A tree beside the best order.

    Attributes:
        tellings: what the tests tell.
        tree: what the tree takes.
        best: the best order, and how far it is proven.
        losses: where the tree loses most, the worst first; none where tests may be wrong.
        wrong: the share of the weight for which the best order ends with another part than the
            true one, where tests may be wrong; None where they may not.
    """

    tellings: Tellings
    tree: TreeMinutes
    best: Ordered
    losses: tuple[Loss, ...]
    wrong: float | None = None


def compare(
    bench: Bench,
    judge: Judge,
    tellings: Tellings,
    limits: Limits = ORDER_LIMITS,
    swaps: Mapping[str, float] | None = None,
) -> Compared:
    """A tree beside the order that takes the least minutes.

    Args:
        bench, judge: the tree on its bench.
        tellings: what its tests tell.
        limits: work that the search may be.
        swaps: part to the minutes of putting in a known good one, where the best order may do so.

    Raises:
        CannotOrder: there are too many ways to order.
    """
    planner = Planner(problem_of(tellings, swaps=swaps), limits)
    best = planner.best()
    taken = tree_minutes(bench, judge, tellings)
    return Compared(tellings, taken, best, _losses(bench.tree, planner, tellings, taken))


def compare_unsure(
    bench: Bench, judge: Judge, tellings: Tellings, unsure: Mapping[str, float]
) -> Compared:
    """The same where tests may show another outcome than they should, by chance.

    Minutes of the best order then hold what its wrong ends cost; those of the tree do not.

    Args:
        bench, judge: the tree on its bench.
        tellings: what its tests tell.
        unsure: test to the probability that it is wrong.

    Raises:
        CannotOrder: a probability is none.
    """
    found = order_unsure(problem_of(tellings, unsure=unsure), WHOLE_TREE_UNSURE)
    best = Ordered(found.plan, found.expected, found.spent, found.left_out, 0)
    taken = tree_minutes(bench, judge, tellings)
    return Compared(tellings, taken, best, (), found.wrong)


def _losses(
    tree: Tree, planner: Planner, tellings: Tellings, taken: TreeMinutes
) -> tuple[Loss, ...]:
    """What each step of the tree loses, for the cars that come to it."""
    tests = {t.step_id: t for t in tellings.tests}
    names = dict(zip(tellings.cars, (s.id for s in problem_of(tellings).suspects), strict=True))
    weights = dict(zip(tellings.cars, (row.weight for row in tellings.rows), strict=True))
    whole = sum(weights.values()) or 1.0
    found = []
    for step_id, cars in taken.comes_to.items():
        if step_id not in tests:
            continue
        done = taken.before[step_id] & tests.keys()
        ready = {need: READY for name in done for need in tests[name].needs}
        so_far = SoFar(suspects=frozenset(names[c] for c in cars), set_up=ready, cannot=done)
        loss = _loss(planner, step_id, so_far, sum(weights[c] for c in cars) / whole)
        if loss is not None:
            found.append(loss)
    return tuple(sorted(found, key=lambda each: (-each.minutes, each.step_id)))


def _loss(planner: Planner, step_id: str, so_far: SoFar, share: float) -> Loss | None:
    try:
        advice = planner.next_tests(so_far, count=len(planner.problem.tests))
    except CannotOrder:
        return None
    own = next((option for option in advice.options if option.test == step_id), None)
    if own is None or not advice.options or own is advice.options[0]:
        return None
    return Loss(step_id, share, advice.options[0].test, own.regret)
