"""A table of one refrigerant, and values between its rows.

Rows lie evenly by saturation temperature. Between them a cubic through the four nearest rows is
taken; pressure as its logarithm over the inverse of temperature, which is nearly straight.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from faulttree.core.units import ZERO_C

Row = tuple[float, ...]


class OutOfTable(ValueError):
    """A pressure or temperature that the table does not hold; the message says what it holds."""


@dataclass(frozen=True, eq=False)
class Table:
    """The figures of one refrigerant, as its module holds them.

    Attributes:
        name: as the trade calls it.
        superheats: superheats of the vapour grid [K], shape (n_superheats,).
        saturation: shape (n_rows, 8): temperature [K], pressure [Pa absolute], then of boiling
            liquid and dry vapour density [kg/m3], enthalpy [J/kg] and entropy [J/(kg K)].
        vapour: shape (n_rows, 3, n_superheats): at the pressure of each row density as a share of
            that of dry vapour, and the rise of enthalpy and entropy above it.
    """

    name: str
    superheats: tuple[float, ...]
    saturation: tuple[Row, ...]
    vapour: tuple[tuple[Row, Row, Row], ...]

    @property
    def coldest(self) -> float:
        """The lowest saturation temperature [K]."""
        return self.saturation[0][0]

    @property
    def hottest(self) -> float:
        """The highest saturation temperature [K]."""
        return self.saturation[-1][0]

    @cached_property
    def _step(self) -> float:
        return self.saturation[1][0] - self.saturation[0][0]

    @cached_property
    def _inverses(self) -> Row:
        return tuple(1.0 / row[0] for row in self.saturation)

    @cached_property
    def _logs(self) -> Row:
        return tuple(math.log(row[1]) for row in self.saturation)

    def pressure(self, temperature: float) -> float:
        """Saturation pressure [Pa absolute] at a temperature [K].

        Raises:
            OutOfTable: colder or hotter than the table.
        """
        first = self._first(self._place(temperature), len(self.saturation))
        return math.exp(_cubic(self._inverses, self._logs, first, 1.0 / temperature))

    def temperature(self, pressure: float) -> float:
        """Saturation temperature [K] at a pressure [Pa absolute].

        Raises:
            OutOfTable: lower or higher than the table.
        """
        lowest, highest = self.saturation[0][1], self.saturation[-1][1]
        if not lowest * (1 - _NEAR) <= pressure <= highest * (1 + _NEAR):
            raise OutOfTable(
                f"{self.name} is known from {lowest / 1e3:.0f} to {highest / 1e3:.0f} kPa absolute"
            )
        log = math.log(pressure)
        place = _before(self._logs, log)
        return 1.0 / _cubic(self._logs, self._inverses, self._first(place, len(self._logs)), log)

    def saturated(self, temperature: float, column: int) -> float:
        """A column of the saturation table at a temperature [K].

        Raises:
            OutOfTable: colder or hotter than the table.
        """
        place = self._place(temperature)
        first = self._first(place, len(self.saturation))
        values = [self.saturation[first + i][column] for i in range(4)]
        return _even(values, place - first)

    def superheated(self, temperature: float, superheat: float, column: int) -> float:
        """A column of the vapour grid: saturation temperature and superheat [K].

        Raises:
            OutOfTable: colder or hotter than the table, or with more superheat.
        """
        if not -_NEAR_K <= superheat <= self.superheats[-1] + _NEAR_K:
            raise OutOfTable(f"{self.name} vapour is known up to {self.superheats[-1]:.0f} K")
        place = self._place(temperature)
        first = self._first(place, len(self.saturation))
        across = self._first(_before(self.superheats, superheat), len(self.superheats))
        values = [
            _cubic(self.superheats, self.vapour[first + i][column], across, superheat)
            for i in range(4)
        ]
        return _even(values, place - first)

    def superheat(self, temperature: float, column: int, value: float) -> float:
        """The superheat [K] that has a value in a rising column of the vapour grid; 0 if less.

        Raises:
            OutOfTable: colder or hotter than the table, or with more superheat.
        """
        place = self._place(temperature)
        first = self._first(place, len(self.saturation))
        rows = [self.vapour[first + i][column] for i in range(4)]
        values = [_even(each, place - first) for each in zip(*rows, strict=True)]
        if value > values[-1] * (1 + _NEAR):
            raise OutOfTable(f"{self.name} vapour is known up to {self.superheats[-1]:.0f} K")
        across = self._first(_before(values, value), len(values))
        return max(_cubic(values, self.superheats, across, value), 0.0)

    def _place(self, temperature: float) -> float:
        """Where a temperature lies, in rows."""
        if not self.coldest - _NEAR_K <= temperature <= self.hottest + _NEAR_K:
            raise OutOfTable(
                f"{self.name} is known from {self.coldest - ZERO_C:.0f} "
                f"to {self.hottest - ZERO_C:.0f} °C"
            )
        return (temperature - self.coldest) / self._step

    @staticmethod
    def _first(place: float, count: int) -> int:
        """The first of the four rows round a place."""
        return min(max(int(place) - 1, 0), count - 4)


_NEAR, _NEAR_K = 1e-6, 1e-3
"""What is taken for the edge of the table itself: a share of a figure, and kelvins."""


def _before(values: Sequence[float], value: float) -> int:
    """Index of the last of some rising values that is not above one."""
    low, high = 0, len(values)
    while low < high:
        middle = (low + high) // 2
        if values[middle] <= value:
            low = middle + 1
        else:
            high = middle
    return low - 1


def _cubic(xs: Sequence[float], ys: Sequence[float], first: int, x: float) -> float:
    """Lagrange's cubic through four points."""
    a, b, c, d = xs[first : first + 4]
    e, f, g, h = x - a, x - b, x - c, x - d
    return (
        ys[first] * f * g * h / ((a - b) * (a - c) * (a - d))
        + ys[first + 1] * e * g * h / ((b - a) * (b - c) * (b - d))
        + ys[first + 2] * e * f * h / ((c - a) * (c - b) * (c - d))
        + ys[first + 3] * e * f * g / ((d - a) * (d - b) * (d - c))
    )


def _even(values: Sequence[float], place: float) -> float:
    """The same for points at 0, 1, 2 and 3."""
    a, b, c, d = values
    e, f, g, h = place, place - 1, place - 2, place - 3
    return -a * f * g * h / 6 + b * e * g * h / 2 - c * e * f * h / 2 + d * e * f * g / 6
