"""Values together with the place of each: what a document is made of while it is being read.

A document has tens of thousands of places and hardly one is ever asked for. They are kept as the
marks of the reader, which count from 0, and turned into positions only when asked for.
"""

from typing import NamedTuple, Protocol, Union

from faulttree.files.yaml_scalars import Scalar

Value = Union[Scalar, "list[Value]", "dict[str, Value]"]
"""What a document is made of."""

Position = tuple[int, int]
"""Line and column, both counted from 1."""


class Mark(Protocol):
    """A place in the text, counted from 0."""

    @property
    def line(self) -> int:
        """The line."""

    @property
    def column(self) -> int:
        """The column."""


class Start(NamedTuple):
    """The place before the first character of a text."""

    line: int = 0
    column: int = 0


Spots = Union["dict[str, Spot]", "list[Spot]", None]
"""The spots inside a map by key, inside a list by index; None for a scalar."""

Spot = tuple[Mark, Mark, Spots]
"""Where a value and its key stand, and the spots inside; without a key, twice the value's own."""


def position_of(mark: Mark) -> Position:
    """The position of a mark."""
    return mark.line + 1, mark.column + 1


def below(spot: Spot, step: str | int) -> Spot | None:
    """The spot one key or index further in; None where there is none."""
    _, _, inside = spot
    if isinstance(inside, dict):
        return inside.get(step) if isinstance(step, str) else None
    is_inside = inside is not None and isinstance(step, int) and 0 <= step < len(inside)
    return inside[step] if is_inside else None  # type: ignore[index]


class OpenMap:
    """A map being filled: a key is awaited, then its value, in turn."""

    __slots__ = ("awaits_key", "data", "in_brackets", "key", "key_mark", "spots")

    def __init__(self, in_brackets: bool) -> None:
        self.in_brackets = in_brackets
        self.data: dict[str, Value] = {}
        self.spots: dict[str, Spot] = {}
        self.awaits_key = True
        self.key = ""
        self.key_mark: Mark = Start()

    def await_value(self, key: str, mark: Mark) -> None:
        """Note the key of the value to come."""
        self.key, self.key_mark = key, mark
        self.awaits_key = False

    def add(self, value: Value, mark: Mark, inside: Spots) -> None:
        """Put a value, or an empty one still to be filled, under the awaited key."""
        self.data[self.key] = value
        self.spots.setdefault(self.key, (mark, self.key_mark, inside))
        self.awaits_key = True

    def add_nothing(self, mark: Mark) -> None:
        """A value was left out: it stands at its key, as readers differ over its place."""
        self.add(None, self.key_mark, None)


class OpenList:
    """A list being filled."""

    __slots__ = ("data", "in_brackets", "spots")

    awaits_key = False

    def __init__(self, in_brackets: bool) -> None:
        self.in_brackets = in_brackets
        self.data: list[Value] = []
        self.spots: list[Spot] = []

    def add(self, value: Value, mark: Mark, inside: Spots) -> None:
        """Put a value, or an empty one still to be filled, at the end."""
        self.data.append(value)
        self.spots.append((mark, mark, inside))

    def add_nothing(self, mark: Mark) -> None:
        """An entry was left out: it stands where the reader noticed it."""
        self.add(None, mark, None)
