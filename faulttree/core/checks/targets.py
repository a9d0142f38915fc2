"""unknown-step: an exit leads to a step that is not in the tree."""

from collections.abc import Iterator

from faulttree.core.checks.finding import DocumentPath, Finding, nearest
from faulttree.core.tree import AGAIN, Conclude, Do, Measure, Observe, Tree, WorkOut

Target = tuple[DocumentPath, str]


def check(tree: Tree) -> Iterator[Finding]:
    """One finding for each exit that leads nowhere."""
    for path, target in _targets(tree):
        if target == AGAIN and path[-2:] == ("implausible", "go"):
            yield from _again(tree, path)
        elif target not in tree.steps:
            yield Finding(
                "unknown-step", path, f"no step is called {target}", nearest(target, tree.steps)
            )


def _again(tree: Tree, path: DocumentPath) -> Iterator[Finding]:
    if isinstance(tree.steps[str(path[1])], WorkOut):
        message = f"{AGAIN} would do the same sum with the same readings, without end"
        yield Finding("unknown-step", path, message, "Lead on to a step that settles it.")


def _targets(tree: Tree) -> Iterator[Target]:
    yield ("start",), tree.start
    for step_id, step in tree.steps.items():
        at: DocumentPath = ("steps", step_id)
        yield from ((at + path, target) for path, target in _of_step(step))


def _of_step(step: Measure | Observe | Do | WorkOut | Conclude) -> Iterator[Target]:
    if isinstance(step, Measure | WorkOut):
        yield from ((("bands", i, "go"), band.go) for i, band in enumerate(step.bands))
        if step.other_test:
            yield ("other-test",), step.other_test
    if isinstance(step, Observe):
        yield from ((("outcomes", i, "go"), each.go) for i, each in enumerate(step.outcomes))
    if isinstance(step, Do):
        yield ("go",), step.go
    if isinstance(step, Conclude):
        if step.prove:
            yield ("prove", "fails", "go"), step.prove.fails.go
        return
    yield ("cannot", "go"), step.cannot.go
    if step.implausible:
        yield ("implausible", "go"), step.implausible.go
