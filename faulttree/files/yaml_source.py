"""A YAML file as plain values, with the place of every key and value.

Start here: `parse_yaml`. The neighbours each do one step: `yaml_text` (bytes to text),
`yaml_reader` (text to events), `yaml_builder` (events to values), `yaml_scalars` (what a word
means), `yaml_spots` (where it stands), `yaml_errors` and `yaml_sentences` (what is wrong).
"""

from dataclasses import dataclass, field

from faulttree.files.yaml_builder import Builder
from faulttree.files.yaml_errors import YamlError
from faulttree.files.yaml_reader import ReaderStopError, read_events, reader_name
from faulttree.files.yaml_sentences import explain
from faulttree.files.yaml_spots import Position, Spot, Value, below, position_of
from faulttree.files.yaml_text import (
    decode,
    hidden_problems,
    long_tag_problems,
    without_directives,
)

__all__ = ["Position", "Source", "Value", "YamlError", "parse_yaml", "reader_name"]


@dataclass(frozen=True, slots=True, eq=False)
class Source:
    """One document: its values, its text, and where in the text each value stands."""

    data: Value
    """Plain dicts, lists, texts, numbers, True, False and None."""
    text: str
    """The file's text without its byte order mark, with `\\n` as the only line end."""
    _spot: Spot = field(repr=False)

    def where(self, path: tuple[str | int, ...], key: bool = False) -> Position:
        """Line and column, both from 1, of the value at a path, or of its key.

        Where the path does not exist, the place is that of the nearest existing part above it.
        An entry of a list has no key; its own place is given.

        Args:
            path: keys and list indices from the document down; () is the document itself.
            key: ask for the key in place of the value.
        """
        spot = self._spot
        for step in path:
            further = below(spot, step)
            if further is None:
                break
            spot = further
        return position_of(spot[1] if key else spot[0])


def parse_yaml(data: bytes, *, stop_at: str | None = None) -> Source:
    """Read one document of the plain subset: maps, lists, and scalars of YAML 1.2.

    Args:
        data: the bytes of the file.
        stop_at: a key of the outermost map at which reading stops; what stands above it is
            returned. Reads the head of a large file quickly. What is wrong below the key is not
            found, except hidden characters and a wrong encoding.

    Raises:
        YamlError: anything is wrong, with every problem that could be found.
    """
    text = decode(data)
    unsafe = hidden_problems(text) + long_tag_problems(text)
    if unsafe:
        raise YamlError(unsafe)
    readable, problems = without_directives(text)
    builder = Builder(text, stop_at)
    try:
        read_events(readable, builder)
    except ReaderStopError as stopped:
        problems += (explain(stopped.trouble, text),)
    problems += tuple(builder.problems)
    if problems:
        raise YamlError(problems)
    return Source(builder.data, text, builder.spot)
