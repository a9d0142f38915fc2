"""Sums line by line: what `faulttree calc` and the plain walk have in common."""

import textwrap
from collections.abc import Iterable, Sequence

from faulttree.core.calc.answered import Answered, answered
from faulttree.core.calc.registry import NoSuchSum
from faulttree.core.calc.sums import Sum, SumRefused
from faulttree.core.calc.typed import complete, inputs_of
from faulttree.core.reading import ReadingRefused
from faulttree.core.units import UnitSystem
from faulttree.render.calc import INPUT_INDENT
from faulttree.render.line import Line
from faulttree.render.plain_text import safe_line

TROUBLES = (NoSuchSum, ReadingRefused, SumRefused)
"""What may be wrong with what was typed; each says it in one sentence."""
_WIDTH = 78


def work_out(the_sum: Sum, line: str, system: UnitSystem) -> Answered:
    """Do a sum with the inputs that a line gives.

    Raises:
        ReadingRefused: a value is none.
        SumRefused: it cannot be done with these inputs.
    """
    return answered(the_sum, complete(the_sum, inputs_of(the_sum, line, system), system))


def as_text(lines: Iterable[Line]) -> str:
    """Lines as plain text, broken to the width of a terminal."""
    return "\n".join(part for line in lines for part in _broken(line))


def _broken(line: Line) -> Sequence[str]:
    text = f"{line.label}: {safe_line(line.text)}" if line.label else line.text.rstrip()
    indent = " " * (INPUT_INDENT if text.startswith(" ") else 4)
    return textwrap.wrap(text, _WIDTH, subsequent_indent=indent, break_on_hyphens=False) or [""]
