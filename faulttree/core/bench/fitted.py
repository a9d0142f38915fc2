"""What may still be fitted to the car when a step is reached."""

from collections.abc import Iterator, Mapping

from faulttree.core.tree import Do, Tree

Fitted = frozenset[str]
"""Names of what `do` steps have fitted and not taken away again."""


def after(tree: Tree, step_id: str, fitted: Fitted) -> Fitted:
    """What is fitted once a step is done."""
    step = tree.steps[step_id]
    if not isinstance(step, Do):
        return fitted
    return fitted.union(step.fits).difference(step.removes)


def fitted_at(tree: Tree) -> Mapping[str, frozenset[Fitted]]:
    """Every set of things that may be fitted at each step that can be reached."""
    found: dict[str, set[Fitted]] = {}
    waiting: list[tuple[str, Fitted]] = [(tree.start, frozenset())]
    while waiting:
        step_id, fitted = waiting.pop()
        if fitted in found.setdefault(step_id, set()):
            continue
        found[step_id].add(fitted)
        waiting.extend(_next(tree, step_id, fitted))
    return {step_id: frozenset(sets) for step_id, sets in found.items()}


def _next(tree: Tree, step_id: str, fitted: Fitted) -> Iterator[tuple[str, Fitted]]:
    done = after(tree, step_id, fitted)
    for target in tree.following[step_id]:
        yield target, done
        if done != fitted:
            yield target, fitted  # the step could not be done
