"""same-name: two things that are told apart by their name have the same one."""

from collections.abc import Iterable, Iterator

from faulttree.core.checks.finding import DocumentPath, Finding
from faulttree.core.tree import AGAIN, Conclude, Measure, Observe, Step, Tree, WorkOut

Named = tuple[DocumentPath, str]


def check(tree: Tree) -> Iterator[Finding]:
    """Bands, outcomes and repairs of a step differ by name; so does what texts and bands use."""
    for step_id, step in tree.steps.items():
        own = [(("steps", step_id, *path), name) for path, name in _choices(step)]
        yield from _twice(own, "is there twice in this step", "The record tells them by name.")
    shared = "is the name of something else as well"
    yield from _twice(_vehicle_data(tree), shared, "A text could mean either: rename one.")
    yield from _twice(_values(tree), shared, "A band could mean either: rename one.")
    if AGAIN in tree.steps:
        path = ("steps", AGAIN)
        message = f"no step can be called {AGAIN}"
        yield Finding("same-name", path, message, "go: again asks the same step.", on_key=True)


def _choices(step: Step) -> Iterator[Named]:
    """What a technician chooses from, or a reading is given to."""
    if isinstance(step, Measure | WorkOut):
        yield from ((("bands", i, "name"), band.name) for i, band in enumerate(step.bands))
    elif isinstance(step, Observe):
        yield from ((("outcomes", i, "name"), each.name) for i, each in enumerate(step.outcomes))
    elif isinstance(step, Conclude):
        yield from ((("repairs", i, "name"), each.name) for i, each in enumerate(step.repairs))


def _vehicle_data(tree: Tree) -> Iterator[Named]:
    """Every name that a text could hold."""
    needs = tree.needs
    groups: tuple[tuple[str, Iterable[str]], ...] = (
        ("points", needs.points),
        ("values", needs.values),
        ("facts", needs.facts),
    )
    for group, names in groups:
        yield from ((("needs", group, name), name) for name in names)


def _values(tree: Tree) -> Iterator[Named]:
    """Every name that a band could refer to."""
    yield from ((("needs", "values", name), name) for name in tree.needs.values)
    steps = {s: step for s, step in tree.steps.items() if isinstance(step, Measure | WorkOut)}
    yield from ((("steps", step_id), step_id) for step_id in steps)
    given = {step.as_: step_id for step_id, step in steps.items() if step.as_}
    yield from ((("steps", step_id, "as"), name) for name, step_id in given.items())


def _twice(named: Iterable[Named], message: str, help: str) -> Iterator[Finding]:
    seen: set[str] = set()
    for path, name in named:
        if name.casefold() in seen:
            on_key = path[-1] == name
            yield Finding("same-name", path, f"{name} {message}", help, on_key=on_key)
        seen.add(name.casefold())
