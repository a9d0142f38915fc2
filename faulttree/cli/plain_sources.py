"""Where the lines of a plain walk come from: a person, a pipe, or a file of answers."""

from collections.abc import Callable, Iterator
from typing import TextIO

from faulttree.core.walk.asks import Ask, AskKind

Source = Callable[[Ask, str], str | None]
"""Gives the next line typed for a question, or None when there is no more."""


def typed_lines(read: TextIO, out: TextIO) -> Source:
    """Lines that a person types, or that come through a pipe."""

    def source(_ask: Ask, question: str) -> str | None:
        out.write(question)
        out.flush()
        line = read.readline()
        if not line:
            out.write("\n")
            return None
        return line.rstrip("\r\n")

    return source


def answer_lines(steps: dict[str, Iterator[str]], vehicle: dict[str, str], battery: str) -> Source:
    """Lines from a file of answers; a step without any ends the walk.

    Battery voltage and vehicle data are given once for the whole walk. One that is asked for again
    at once was not accepted, and ends the walk too.
    """
    last: tuple[AskKind, str, str] | None = None

    def source(ask: Ask, _question: str) -> str | None:
        nonlocal last
        if ask.kind not in (AskKind.VEHICLE_TEXT, AskKind.VEHICLE_VALUE, AskKind.BATTERY):
            last = None
            return next(steps.get(ask.step_id, iter(())), None)
        before, last = last, (ask.kind, ask.step_id, ask.name)
        if last == before:
            return None
        return vehicle.get(ask.name, "") if ask.name else battery or None

    return source
