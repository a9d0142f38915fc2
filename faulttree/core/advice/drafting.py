"""A tree in outline made from the best order of its tests."""

from collections.abc import Iterator, Mapping

from faulttree.core.advice.draft import CannotDraft, Draft, DraftStep
from faulttree.core.advice.ends import Ends
from faulttree.core.advice.planting import Node, Planting, Target, numbered
from faulttree.core.bench.bench import Bench
from faulttree.core.order.plan import Asked, Plan
from faulttree.core.tree import Conclude, Measure, Observe, Step, Tree, WorkOut


def draft_of(bench: Bench, ends: Ends, plan: Plan) -> Draft:
    """The outline of a tree that tests in the order of a plan.

    Args:
        bench: the author's tree on its bench.
        ends: its verdicts.
        plan: the order.

    Raises:
        CannotDraft: the plan has no test, or one of them needs something fitted before.
    """
    if not isinstance(plan, Asked):
        raise CannotDraft("No test tells these cars apart, so there is no tree to draft.")
    planted = Planting(bench.tree, ends)
    return _outline(bench.tree, planted, planted.node(plan, frozenset()))


def _outline(tree: Tree, planted: Planting, first: Node) -> Draft:
    ids, named = _names(tree, planted, first)
    steps = {
        step_id: DraftStep(
            node.of,
            {outcome: _id(ids, target) for outcome, target in node.go},
            None if node.no_reading is None else _id(ids, node.no_reading),
        )
        for node, step_id in ids.items()
    }
    conclusions = _conclusions(tree, steps)
    return Draft(
        ids[first],
        steps,
        conclusions,
        {name: _evidence(tree, steps, name) for name in conclusions},
        planted.open_ends,
        planted.unsettled,
        tuple(planted.put_in),
        named,
    )


def _names(tree: Tree, planted: Planting, first: Node) -> tuple[dict[Node, str], frozenset[str]]:
    """Every node once with an id, and the steps that none has the id of."""
    nodes = list(dict.fromkeys(_nodes(first)))
    tests = [node.of for node in nodes]
    used = {name for of in tests for name in _names_used(tree.steps[of])}
    named = frozenset(of for of in tests if of in used and tests.count(of) > 1)
    taken = {*tree.steps, *planted.open_ends, planted.unsettled}
    ids: dict[Node, str] = {}
    for node in nodes:
        is_first = node.of not in ids.values() and node.of not in named
        ids[node] = node.of if is_first else numbered(node.of, taken, node.of in named)
        taken.add(ids[node])
    return ids, named


def _names_used(step: Step) -> frozenset[str]:
    return step.names_used if isinstance(step, Measure | WorkOut) else frozenset()


def _nodes(node: Target | None) -> Iterator[Node]:
    if isinstance(node, Node):
        yield node
        for _, target in node.go:
            yield from _nodes(target)
        yield from _nodes(node.no_reading)


def _id(ids: Mapping[Node, str], target: Target) -> str:
    return target if isinstance(target, str) else ids[target]


def settles_nothing(step: Step | None) -> bool:
    """Whether a step is a conclusion that condemns no part and clears none."""
    return isinstance(step, Conclude) and step.result == "unresolved"


def _conclusions(tree: Tree, steps: Mapping[str, DraftStep]) -> tuple[str, ...]:
    """Conclusions of the author that are led to, in the order of the tree."""
    exits = {target for step in steps.values() for target in step.go.values()}
    exits |= {step.no_reading for step in steps.values() if step.no_reading}
    for step in steps.values():
        probed = tree.steps[step.of]
        assert isinstance(probed, Measure | Observe | WorkOut)
        exits |= {probed.cannot.go, probed.implausible.go} & _unresolved(tree)
    for name in [name for name in tree.steps if name in exits]:
        verdict = tree.steps[name]
        if isinstance(verdict, Conclude) and verdict.prove:
            exits |= {verdict.prove.fails.go} & _unresolved(tree)
    return tuple(n for n, s in tree.steps.items() if n in exits and isinstance(s, Conclude))


def _unresolved(tree: Tree) -> set[str]:
    return {name for name, step in tree.steps.items() if settles_nothing(step)}


def _evidence(tree: Tree, steps: Mapping[str, DraftStep], name: str) -> tuple[str, ...]:
    """Tests on the way to a conclusion that the author calls its evidence, or else the last ones.

    Steps stand here in the order of the draft.
    """
    verdict = tree.steps[name]
    assert isinstance(verdict, Conclude)
    if not verdict.evidence:
        return ()
    before, last = _before(steps, name)
    wanted = [n for n in steps if n in before and steps[n].of in verdict.evidence]
    return tuple(wanted or [n for n in steps if n in last])


def _before(steps: Mapping[str, DraftStep], name: str) -> tuple[set[str], set[str]]:
    """The tests from which a conclusion may be reached, and those that lead straight to it."""
    found: set[str] = set()
    last: set[str] = set()
    waiting = [name]
    while waiting:
        at = waiting.pop()
        leading = {n for n, s in steps.items() if at in (*s.go.values(), s.no_reading)}
        last = last or leading
        waiting += leading - found
        found |= leading
    return found, last
