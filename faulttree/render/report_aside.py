"""Why a test was taken aside from the tree, as a report tells it."""

from faulttree.core.walk.events import Aside
from faulttree.core.walk.state import WalkState
from faulttree.render.report_facts import named

_LEAST_MINUTES = 0.5
"""Less makes no difference and is not told."""


def why_aside(state: WalkState, taken: Aside) -> str:
    """The reason in one line, ready for Markdown."""
    is_known = taken.instead_of in state.tree.steps
    own = named(state, taken.instead_of) if is_known else "the tree's own step"
    reason = f"taken aside: advised by the circuit model in place of {own}"
    if taken.saves_min is None or taken.saves_min < _LEAST_MINUTES:
        return reason
    count = max(1, round(taken.saves_min))
    minutes = f"{count} minute{'' if count == 1 else 's'}"
    return f"{reason}, which was to take about {minutes} more on average"
