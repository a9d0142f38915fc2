"""The one module that knows ruamel.yaml: it turns text into calls of a handler.

ruamel reads with a C module where one is installed and with Python otherwise. Both give the same
events, so what stands above this module need not know which is in use.
"""

import re
from collections.abc import Callable, Generator
from contextlib import closing
from typing import Any, Protocol

from faulttree.files.yaml_sentences import ReaderTrouble
from faulttree.files.yaml_spots import Mark
from faulttree.files.yaml_text import place_of


class Event(Protocol):
    """One step of the reader through the text."""

    start_mark: Mark
    end_mark: Mark


class NodeEvent(Event, Protocol):
    """What a scalar and the start of a map or list have in common."""

    anchor: str | None
    ctag: object | None
    """The explicit tag, or None."""


class StartEvent(NodeEvent, Protocol):
    """The start of a map or list."""

    flow_style: bool | None
    """Whether it is written with brackets."""


class ScalarEvent(NodeEvent, Protocol):
    """One text, quoted or not."""

    value: str
    style: str | None
    """The quote or block sign it was written with; empty or None without quotes."""


class AliasEvent(Event, Protocol):
    """A `*name`."""

    anchor: str


class Handler(Protocol):
    """What receives the events; it may set `finished` to hear no more."""

    finished: bool

    def document(self, event: Event) -> None:
        """A document starts."""

    def scalar(self, event: ScalarEvent) -> None:
        """A key, or a value that is neither a map nor a list."""

    def alias(self, event: AliasEvent) -> None:
        """A `*name` stands for a key or value."""

    def map_start(self, event: StartEvent) -> None:
        """A map starts; keys and values follow in turn."""

    def list_start(self, event: StartEvent) -> None:
        """A list starts; its entries follow."""

    def end(self, event: Event) -> None:
        """The innermost map or list ends."""


class ReaderStopError(Exception):
    """The reader cannot go on; `trouble` says where and why."""

    def __init__(self, trouble: ReaderTrouble) -> None:
        super().__init__(trouble.problem)
        self.trouble = trouble


def reader_name() -> str:
    """Which reader is in use: `C (libyaml)` or `Python`, the slower one."""
    from ruamel.yaml.parser import Parser

    return "Python" if _yaml().Parser is Parser else "C (libyaml)"


def read_events(text: str, handler: Handler) -> None:
    """Call the handler for every node of a text until the text ends or the handler has finished.

    Raises:
        ReaderStopError: the text is not YAML.
    """
    from ruamel.yaml import events

    calls: dict[type, Callable[[Any], None]] = {
        events.DocumentStartEvent: handler.document,
        events.ScalarEvent: handler.scalar,
        events.AliasEvent: handler.alias,
        events.MappingStartEvent: handler.map_start,
        events.SequenceStartEvent: handler.list_start,
        events.MappingEndEvent: handler.end,
        events.SequenceEndEvent: handler.end,
    }
    with closing(_events(text)) as stream:
        for event in stream:
            call = calls.get(type(event))
            if call is not None:
                call(event)
                if handler.finished:
                    return


def _yaml() -> Any:
    from ruamel.yaml import YAML

    return YAML(typ="safe", pure=False)


def _events(text: str) -> Generator[Any, None, None]:
    from ruamel.yaml.error import MarkedYAMLError, YAMLError

    try:
        yield from _yaml().parse(text)
    except MarkedYAMLError as error:
        raise ReaderStopError(_trouble(error, text)) from error
    except (YAMLError, ValueError, OverflowError) as error:
        raise ReaderStopError(_unmarked_trouble(error, text)) from error


def _trouble(error: Any, text: str) -> ReaderTrouble:
    mark = error.problem_mark or error.context_mark
    start = error.context_mark or mark
    return ReaderTrouble(
        str(error.problem or ""),
        *_inside(mark, text),
        str(error.context or ""),
        *_inside(start, text),
    )


def _inside(mark: Mark | None, text: str) -> tuple[int, int]:
    """Line and column from 1; a place behind the last line becomes the end of the last line."""
    lines = text.split("\n")
    if mark is None or mark.line >= len(lines):
        return len(lines), len(lines[-1]) + 1
    return mark.line + 1, min(mark.column, len(lines[mark.line])) + 1


def _unmarked_trouble(error: Exception, text: str) -> ReaderTrouble:
    """The Python reader stumbles over `\\U` with a number that no character has."""
    found = re.search(r"\\U(?!000|0010)", text)
    if found is None:
        return ReaderTrouble(str(error), *_inside(None, text))
    line, column = place_of(text, found.start())
    return ReaderTrouble("no such character", line, column, "while scanning a quoted scalar")
