"""From the reader's events to plain values with their places, refusing what a tree never needs.

The stack is explicit and the depth is counted, so no document can exhaust the memory or the
call stack. Anchors, aliases, merge keys and tags are refused because one line of them can stand
for millions, or for something the author cannot see.
"""

import re

from faulttree.core.problem import Place, Problem
from faulttree.files.yaml_reader import AliasEvent, Event, NodeEvent, ScalarEvent, StartEvent
from faulttree.files.yaml_scalars import NumberError, Scalar, plain_value
from faulttree.files.yaml_sentences import sign_in_brackets
from faulttree.files.yaml_spots import (
    OpenList,
    OpenMap,
    Position,
    Spot,
    Start,
    Value,
    position_of,
)
from faulttree.files.yaml_text import MAX_REPORTED, hidden_in, hidden_problem

MAX_DEPTH = 32
"""Maps and lists inside each other; a tree needs eight."""
MAX_NODES = 200_000
"""Keys, values, maps and lists of one document; a tree of a thousand steps has some 40,000."""
MAX_SCALAR = 64_000
"""The longest single text [bytes of UTF-8]."""
_NO_KEYS = ("", "<<")
_MEANT_FOR_KEYS = re.compile("[?:]")


class Builder:
    """Receives the events of one text; afterwards holds its value, its spots and its problems."""

    def __init__(self, text: str, stop_at: str | None = None) -> None:
        self.finished = False
        """Set when nothing more is to be read."""
        self.problems: list[Problem] = []
        self._text = text
        self._stop_at = stop_at
        self._root = OpenList(in_brackets=False)
        self._top: OpenMap | OpenList = self._root
        self._stack: list[OpenMap | OpenList] = []
        self._nodes = 0
        self._first_document: Position | None = None

    @property
    def data(self) -> Value:
        """The value of the document; None when there is none."""
        return self._root.data[0] if self._root.data else None

    @property
    def spot(self) -> Spot:
        """The spot of the document; a document of nothing stands at the top of the file."""
        return (Start(), Start(), None) if self.data is None else self._root.spots[0]

    def document(self, event: Event) -> None:
        """Note where the first document starts; refuse a second one."""
        position = position_of(event.start_mark)
        if self._first_document is None:
            self._first_document = position
            return
        self._refuse(
            "yaml-document",
            "a second document starts here",
            position,
            "keep one document in a file; remove the `---` or move the rest to another file",
            also=(Place(*self._first_document, "the first one starts here"),),
        )
        self.finished = True

    def scalar(self, event: ScalarEvent) -> None:
        """Take a key, or put a value in its place."""
        self._nodes += 1
        if self._nodes > MAX_NODES:
            self._refuse_more(event)
        value, style, top = event.value, event.style, self._top
        if event.anchor is not None or event.ctag is not None:
            self._refuse_marks(event)
        if style == '"' or len(value) * 4 > MAX_SCALAR:
            self._check_text(event)
        if top.in_brackets and not style:
            self._check_in_brackets(event)
        if top.awaits_key:
            self._take_key(top, event)  # type: ignore[arg-type]
        elif style:
            top.add(value, event.start_mark, None)
        elif value:
            top.add(self._value(event), event.start_mark, None)
        else:
            top.add_nothing(event.start_mark)

    def alias(self, event: AliasEvent) -> None:
        """Refuse an alias and put nothing in its place."""
        self._nodes += 1
        self._refuse(
            "yaml-alias",
            f"the alias *{_shown(event.anchor)} stands for a text written elsewhere",
            position_of(event.start_mark),
            "write the text out here, or put quotes round a text that starts with `*`",
            length=_width(event),
        )
        top = self._top
        if isinstance(top, OpenMap) and top.awaits_key:
            top.await_value("", event.start_mark)
        else:
            top.add(None, event.start_mark, None)

    def map_start(self, event: StartEvent) -> None:
        """Put an empty map in its place and fill it from here on."""
        self._open(OpenMap(bool(event.flow_style)), event)

    def list_start(self, event: StartEvent) -> None:
        """Put an empty list in its place and fill it from here on."""
        self._open(OpenList(bool(event.flow_style)), event)

    def end(self, event: Event) -> None:
        """Go on with the map or list around the one that ends."""
        self._top = self._stack.pop()

    def _open(self, opened: OpenMap | OpenList, event: NodeEvent) -> None:
        self._nodes += 1
        if self._nodes > MAX_NODES:
            self._refuse_more(event)
        if event.anchor is not None or event.ctag is not None:
            self._refuse_marks(event)
        top = self._top
        if isinstance(top, OpenMap) and top.awaits_key:
            self._refuse_key(top, event)
        else:
            top.add(opened.data, event.start_mark, opened.spots)
        self._stack.append(top)
        self._top = opened
        if len(self._stack) > MAX_DEPTH:
            self._refuse(
                "yaml-depth",
                f"more than {MAX_DEPTH} lists and maps stand inside each other",
                position_of(event.start_mark),
                "check the brackets and the indentation above",
            )
            self.finished = True

    def _refuse_key(self, top: OpenMap, event: NodeEvent) -> None:
        self._refuse(
            "yaml-key",
            "a map or a list stands where a key should be",
            position_of(event.start_mark),
            "write a single word as the key, or put quotes round a text in brackets",
        )
        top.await_value("", event.start_mark)

    def _take_key(self, top: OpenMap, event: ScalarEvent) -> None:
        key = event.value
        if key == self._stop_at and len(self._stack) == 1:
            self.finished = True
            return
        if key in _NO_KEYS and not event.style:
            self._refuse_plain_key(key, position_of(event.start_mark))
        if key in top.data:
            self._refuse_duplicate(key, position_of(top.spots[key][1]), event)
        top.key, top.key_mark, top.awaits_key = key, event.start_mark, False

    def _refuse_plain_key(self, key: str, position: Position) -> None:
        if key == "<<":
            self._refuse(
                "yaml-merge",
                "the merge key << takes keys from elsewhere",
                position,
                "write the keys out here",
                length=2,
            )
        else:
            self._refuse("yaml-key", "there is no key before this colon", position, "write the key")

    def _refuse_duplicate(self, key: str, first: Position, event: ScalarEvent) -> None:
        self._refuse(
            "duplicate-key",
            f"the key `{_shown(key)}` stands here again; line {first[0]} has it already",
            position_of(event.start_mark),
            "rename or remove one of the two",
            length=_width(event),
            also=(Place(*first, "first here"),),
        )

    def _value(self, event: ScalarEvent) -> Scalar:
        try:
            return plain_value(event.value)
        except NumberError as error:
            position = position_of(event.start_mark)
            help_text = "write a shorter number, or put quotes round it if it is a text"
            self._refuse("yaml-number", str(error), position, help_text, length=_width(event))
            return None

    def _refuse_marks(self, event: NodeEvent) -> None:
        position = position_of(event.start_mark)
        if event.anchor is not None:
            self._refuse(
                "yaml-anchor",
                f"the anchor &{_shown(event.anchor)} names this part for use elsewhere",
                position,
                "remove it, or put quotes round a text that starts with `&`",
                length=self._word_length(position),
            )
        if event.ctag is not None:
            self._refuse(
                "yaml-tag",
                "a tag (!name) is not used in these files",
                position,
                "remove it, or put quotes round a text that starts with `!`",
                length=self._word_length(position),
            )

    def _check_text(self, event: ScalarEvent) -> None:
        value, position = event.value, position_of(event.start_mark)
        if len(value.encode(errors="replace")) > MAX_SCALAR:
            self._refuse(
                "yaml-length",
                f"one text of {len(value):,} characters; {MAX_SCALAR // 1000} kB are the most",
                position,
                "check for a quote that was closed too late, or split the text",
            )
        if event.style == '"':  # only here can an escape bring in what the file itself lacks
            hidden = hidden_in(value)
            if hidden is not None:
                self._add(hidden_problem(hidden, *position))

    def _check_in_brackets(self, event: ScalarEvent) -> None:
        """Refuse what only the Python reader can read, so that a file opens everywhere."""
        found = _MEANT_FOR_KEYS.search(event.value)
        if found is not None:
            line, column = position_of(event.start_mark)
            is_one_line = event.start_mark.line == event.end_mark.line
            column += found.start() if is_one_line else 0
            self._add(sign_in_brackets(found.group(), line, column))

    def _refuse_more(self, event: Event) -> None:
        if not self.finished:
            self._refuse(
                "yaml-nodes",
                f"the document has more than {MAX_NODES:,} entries",
                position_of(event.start_mark),
                "split the document into several",
            )
            self.finished = True

    def _word_length(self, position: Position) -> int:
        line = self._text.split("\n")[position[0] - 1]
        found = re.match(r"\S+", line[position[1] - 1 :])
        return len(found.group()) if found else 1

    def _refuse(
        self,
        check: str,
        message: str,
        position: Position,
        help_text: str,
        *,
        length: int = 1,
        also: tuple[Place, ...] = (),
    ) -> None:
        self._add(Problem(check, "error", message, *position, help_text, length, also))

    def _add(self, problem: Problem) -> None:
        self.problems.append(problem)
        if len(self.problems) >= MAX_REPORTED:
            self.finished = True


def _width(event: Event) -> int:
    """How many characters the event covers on its first line, as far as the reader says."""
    start, end = event.start_mark, event.end_mark
    return max(1, end.column - start.column) if start.line == end.line else 1


def _shown(name: str) -> str:
    """A name from the file, short and safe to show inside a message."""
    short = name if len(name) <= 40 else name[:39] + "…"
    return "".join(character if character.isprintable() else "?" for character in short)
