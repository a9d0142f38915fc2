"""The steps as a graph, held against every path written out one by one."""

from collections.abc import Iterator

import pytest
from builders import lamp, lamp_with

from faulttree.core.graph import find_loop, in_order, maybe_before, reachable, surely_before
from faulttree.core.tree import Tree


def _paths(tree: Tree, step: str, before: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """Every path from a step to every later one, the last step at its end."""
    here = (*before, step)
    yield here
    for after in tree.following[step]:
        yield from _paths(tree, after, here)


@pytest.fixture(scope="module")
def paths() -> dict[str, list[frozenset[str]]]:
    """For each step the sets of steps before it, one for each path."""
    found: dict[str, list[frozenset[str]]] = {}
    for path in _paths(lamp(), lamp().start):
        found.setdefault(path[-1], []).append(frozenset(path[:-1]))
    return found


def test_reachable_are_the_steps_that_some_path_ends_at(paths):
    assert reachable(lamp()) == set(paths)


def test_a_step_comes_after_all_that_lead_to_it():
    order = in_order(lamp())
    assert sorted(order) == sorted(lamp().steps)
    for step, following in lamp().following.items():
        assert all(order.index(step) < order.index(after) for after in following)


def test_surely_before_is_what_all_paths_share(paths):
    sure = surely_before(lamp(), in_order(lamp()))
    for step, before in paths.items():
        shared = frozenset.intersection(*before)
        assert {s for s in lamp().steps if sure.has_any(step, [s])} == shared


def test_maybe_before_is_what_any_path_has(paths):
    maybe = maybe_before(lamp(), in_order(lamp()))
    for step, before in paths.items():
        some = frozenset.union(*before)
        assert {s for s in lamp().steps if maybe.has_any(step, [s])} == some


def test_a_loop_is_found_and_closes_on_itself():
    looped = lamp().model_copy(deep=True)
    step = looped.steps["feed-drop"]
    back = step.model_copy(update={"cannot": step.cannot.model_copy(update={"go": "feed"})})
    looped = looped.model_copy(update={"steps": {**looped.steps, "feed-drop": back}})
    vars(looped).pop("following", None)
    loop = find_loop(looped)
    assert loop[0] == loop[-1]
    assert {"feed", "feed-drop"} <= set(loop)
    assert in_order(looped) == ()


def test_a_tree_without_a_loop_has_none():
    assert find_loop(lamp()) == ()
    assert find_loop(lamp_with()) == ()
