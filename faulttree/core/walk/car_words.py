"""What a tree's names stand for on this car, and which of them nobody has told yet."""

from collections.abc import Iterator

from faulttree.core.expression_values import ALTITUDE
from faulttree.core.figures import show, show_altitude
from faulttree.core.reading import example
from faulttree.core.texts import fill, placeholders
from faulttree.core.tree import Step, expressions
from faulttree.core.units import Quantity
from faulttree.core.walk.state import WalkState

ALTITUDE_EXAMPLE = "350 m or 1200 ft"
"""What may be typed for the altitude: its unit has to stand there."""


def words(state: WalkState, in_full: bool = False) -> dict[str, str]:
    """What each {name} of a text stands for on this car.

    Args:
        state: the walk.
        in_full: points with wire colour and place, as where a lead goes; else by cavity alone.
    """
    needs = state.tree.needs
    found: dict[str, str] = dict(needs.points)
    found.update(
        {name: f"({value.ask.lower()}: not known)" for name, value in needs.values.items()}
    )
    found.update({name: f"({fact.ask.lower()}: not known)" for name, fact in needs.facts.items()})
    if state.sheet:
        points = state.sheet.points.items()
        named = ((n, p.words if in_full else p.short) for n, p in points if n in needs.points)
        found.update({n: text for n, text in named if text})
        found.update({n: text for n, text in state.sheet.facts.items() if n in needs.facts})
    for name, value in state.vehicle_values.items():
        quantity = needs.values[name].quantity
        if is_altitude(name, quantity):
            found[name] = show_altitude(value.value, state.units)
        else:
            found[name] = show(value.value, quantity, state.units)
    told = {n: g.text for n, g in state.given.items() if g.text and n not in needs.values}
    return found | told


def text_for(state: WalkState, text: str | None) -> str:
    """A text of the tree with this car's names filled in."""
    return fill(text, words(state)) if text else ""


def place_for(state: WalkState, text: str | None) -> str:
    """Where a lead goes on this car, in full: cavity, wire colour, place."""
    return fill(text, words(state, in_full=True)) if text else ""


def still_fitted(state: WalkState) -> tuple[str, ...]:
    """What the walk has put on the car and not taken out again, in this car's words."""
    return tuple(place_for(state, what) for what in state.fitted.values())


def missing_data(state: WalkState, step: Step) -> tuple[str, ...]:
    """Vehicle data that a step needs and that neither the sheet nor the technician has given."""
    return tuple(name for name in _data_used(state, step) if not _is_given(state, name))


def data_example(name: str, quantity: Quantity) -> str:
    """What may be typed for a value of the vehicle."""
    return ALTITUDE_EXAMPLE if is_altitude(name, quantity) else example(quantity)


def is_altitude(name: str, quantity: Quantity) -> bool:
    """Whether a value of the vehicle is how high the car stands."""
    return name == ALTITUDE and quantity is Quantity.LENGTH


def _data_used(state: WalkState, step: Step) -> Iterator[str]:
    needs = state.tree.needs
    set_up = getattr(step, "set_up", None)
    texts = [getattr(step, a, None) or "" for a in ("title", "red_lead", "black_lead", "at", "how")]
    texts += [getattr(set_up, a, None) or "" for a in ("load", "connector", "other")]
    texts += getattr(step, "fits", {}).values()
    used = [name for text in texts for name in placeholders(text)]
    for expression in expressions(step):
        used += sorted(expression.names & needs.values.keys() | expression.car_data)
    return iter(dict.fromkeys(name for name in used if name in needs.names))


def _is_given(state: WalkState, name: str) -> bool:
    needs, sheet = state.tree.needs, state.sheet
    if name in state.given or sheet is None:
        return name in state.given
    if name in needs.points:
        return name in sheet.points
    return name in (sheet.values if name in needs.values else sheet.facts)
