"""Sums in the plain walk: `calc NAME INPUT…`, and `calc note` for the last one."""

from faulttree.cli.sums import TROUBLES, as_text, work_out
from faulttree.core.calc.registry import find_sum
from faulttree.core.units import UnitSystem
from faulttree.render.calc import about_lines, note_text, result_lines, sums_text
from faulttree.render.line import Line


class PlainCalc:
    """What the word `calc` does; it remembers the last sum, to be noted.

    Attributes:
        note: the last sum as a note; empty before there was one.
    """

    def __init__(self, system: UnitSystem) -> None:
        """`system` is what bare numbers are taken in."""
        self._system = system
        self.note = ""

    def told(self, rest: str) -> str:
        """The sums, what one needs, its result, or why there is none."""
        name, _, line = rest.strip().partition(" ")
        if not name:
            return sums_text()
        try:
            the_sum = find_sum(name)
            if not line.strip():
                return as_text(about_lines(the_sum, self._system))
            done = work_out(the_sum, line, self._system)
        except TROUBLES as error:
            return as_text([Line("", str(error))])
        self.note = note_text(done, self._system)
        return (
            as_text([*result_lines(done, self._system)]) + "\ncalc note writes it into the record."
        )
