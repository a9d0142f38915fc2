"""What a result means, by where it and its limits lie."""

import math
from bisect import bisect_right
from collections.abc import Sequence

from faulttree.core.calc.sums import Answer


def meaning(answer: Answer, edges: Sequence[float], words: Sequence[str]) -> str:
    """The words for a result; all that its limits reach where these are several.

    Args:
        answer: the result with its limits.
        edges: rising; from each one on the next words hold.
        words: one more than there are edges, each a sentence without its full stop.
    """
    first, last = (bisect_right(edges, _near(limit, edges)) for limit in answer.limits)
    reached = words[first : last + 1]
    if len(reached) == 1:
        return f"{reached[0]}."
    return f"In doubt, by the limits of error: {'; or: '.join(reached)}."


def _near(value: float, edges: Sequence[float]) -> float:
    """The value; an edge where it differs from it by rounding alone."""
    return next((edge for edge in edges if math.isclose(value, edge, abs_tol=1e-9)), value)
