"""Going through what an element holds: its conditions, with their places."""

from collections.abc import Iterator

from faulttree.core.circuit.conditions import Condition
from faulttree.core.circuit.document import Path
from faulttree.core.circuit.elements import Battery, ControlInput, ControlOutput, Element


def conditions_in(element: Element) -> Iterator[tuple[Path, Condition]]:
    """Every condition of an element and those inside them, with its place in the element."""
    for path, found in _lists(element):
        for index, condition in enumerate(found):
            yield from _with_inner((*path, index), condition)


def _lists(element: Element) -> Iterator[tuple[Path, tuple[Condition, ...]]]:
    if isinstance(element, Battery) and element.charging:
        yield ("charging", "when"), element.charging.when
    elif isinstance(element, ControlInput):
        yield ("powered",), element.powered
    elif isinstance(element, ControlOutput):
        yield ("drives-when",), element.drives_when


def _with_inner(path: Path, condition: Condition) -> Iterator[tuple[Path, Condition]]:
    yield path, condition
    for index, inner in enumerate(condition.any):
        yield from _with_inner((*path, "any", index), inner)
