"""Figures of many loops side by side: arrays of shape (n,), of which a part can be taken."""

from collections.abc import Sequence
from copy import copy
from typing import Any, Self

import numpy as np
from numpy.typing import NDArray

from faulttree.core.loop.fluid import Floats


class Columns:
    """What holds arrays, and other such columns, one entry for each loop."""

    def part(self, which: NDArray[np.intp]) -> Self:
        """The same for some of the loops."""
        found = copy(self)
        for name, value in vars(self).items():
            if isinstance(value, np.ndarray):
                setattr(found, name, value[which])
            elif isinstance(value, Columns):
                setattr(found, name, value.part(which))
        return found


def column(of: Sequence[Any], name: str) -> Floats:
    """One attribute of each; not a number where it has none."""
    return np.array([getattr(each, name) for each in of], float)
