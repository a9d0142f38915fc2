"""What a finding is: one value for every mistake found in a document.

Checks make problems, renderers show them. A problem knows its place in a text but not the file;
whoever read the file adds the path with `FileProblems`.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

_CHECK_ID = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")

Severity = Literal["error", "warning"]
"""`error` stops the document from being used; `warning` does not."""


@dataclass(frozen=True, slots=True)
class Place:
    """A second place that belongs to a problem, such as the first of two equal keys."""

    line: int
    """Counted from 1; 0 when unknown."""
    column: int
    """Counted from 1 in characters; 0 when unknown."""
    label: str
    """A few words to stand beside the place."""


@dataclass(frozen=True, slots=True)
class Problem:
    """One finding: which check found it, where it is, and how to mend it.

    Raises:
        ValueError: the check is not a kebab-case id, or a number is out of range.
    """

    check: str
    """The id of the check, in kebab-case, as listed in the documentation."""
    severity: Severity
    message: str
    """What is wrong, in one plain sentence."""
    line: int
    """Counted from 1; 0 when unknown."""
    column: int
    """Counted from 1 in characters; 0 when unknown."""
    help: str = ""
    """One thing to do about it."""
    length: int = 1
    """How many characters to mark, from the column on."""
    also: tuple[Place, ...] = ()
    """Second places of the same problem."""

    def __post_init__(self) -> None:
        if not _CHECK_ID.fullmatch(self.check):
            raise ValueError(f"the id of a check is written in kebab-case, not {self.check!r}")
        if self.line < 0 or self.column < 0 or self.length < 1:
            raise ValueError("a place is counted from 1 (0 when unknown) and marks one or more")


@dataclass(frozen=True, slots=True)
class FileProblems:
    """The problems of one file, with the text they point into."""

    path: str
    """The file's name as the reader of the report should see it."""
    text: str
    """What the lines and columns count in."""
    problems: tuple[Problem, ...]

    @property
    def has_errors(self) -> bool:
        """Whether the file must be mended before it can be used."""
        return has_errors(self.problems)


def has_errors(problems: Iterable[Problem]) -> bool:
    """Whether any of the problems is an error; warnings alone are not."""
    return any(problem.severity == "error" for problem in problems)


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """The problems by line, then by column; equal places keep the order they were found in."""
    return tuple(sorted(problems, key=lambda problem: (problem.line, problem.column)))
