"""Values together with the place of each: what a document is made of while it is being read."""

from typing import NamedTuple, Union

from faulttree.files.yaml_scalars import Scalar

Value = Union[Scalar, "list[Value]", "dict[str, Value]"]
"""What a document is made of."""

Position = tuple[int, int]
"""Line and column, both counted from 1."""


class Spot(NamedTuple):
    """Where a value and its key stand, and the spots of what is inside."""

    position: Position
    key_position: Position
    """That of the value where there is no key."""
    inside: "dict[str, Spot] | list[Spot] | None"
    """By key for a map, by index for a list; None for a scalar."""

    def below(self, step: str | int) -> "Spot | None":
        """The spot one key or index further in; None where there is none."""
        inside = self.inside
        if inside is None:
            return None
        if isinstance(inside, dict):
            return inside.get(step) if isinstance(step, str) else None
        return inside[step] if isinstance(step, int) and 0 <= step < len(inside) else None


Spots = dict[str, Spot] | list[Spot] | None


class OpenMap:
    """A map being filled: a key is awaited, then its value, in turn."""

    __slots__ = ("_key_position", "data", "in_brackets", "key", "spots")

    def __init__(self, in_brackets: bool) -> None:
        self.in_brackets = in_brackets
        self.data: dict[str, Value] = {}
        self.spots: dict[str, Spot] = {}
        self.key: str | None = None
        """None while a key is awaited."""
        self._key_position: Position = (0, 0)

    def first_position(self, key: str) -> Position | None:
        """Where the map has the key already, or None."""
        spot = self.spots.get(key)
        return spot.key_position if spot else None

    def await_value(self, key: str, position: Position) -> None:
        """Note the key of the value to come."""
        self.key = key
        self._key_position = position

    def position_of_nothing(self, position: Position) -> Position:
        """Where a value stands that was left out: at its key, as readers differ over it."""
        return self._key_position

    def add(self, value: Value, position: Position, inside: Spots) -> None:
        """Put a value, or an empty one still to be filled, under the awaited key."""
        key = str(self.key)
        self.data[key] = value
        self.spots.setdefault(key, Spot(position, self._key_position, inside))
        self.key = None


class OpenList:
    """A list being filled."""

    __slots__ = ("data", "in_brackets", "spots")

    def __init__(self, in_brackets: bool) -> None:
        self.in_brackets = in_brackets
        self.data: list[Value] = []
        self.spots: list[Spot] = []

    def position_of_nothing(self, position: Position) -> Position:
        """Where an entry stands that was left out: where the reader noticed it."""
        return position

    def add(self, value: Value, position: Position, inside: Spots) -> None:
        """Put a value, or an empty one still to be filled, at the end."""
        self.data.append(value)
        self.spots.append(Spot(position, position, inside))
