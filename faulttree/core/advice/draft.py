"""A tree in outline, as it follows from a plan: which steps, and where each answer leads."""

from collections.abc import Mapping
from dataclasses import dataclass


class CannotDraft(ValueError):
    """No tree can be made of a plan; the message says why in one sentence."""


@dataclass(frozen=True, slots=True)
class DraftStep:
    """A test of the outline.

    Attributes:
        of: the step of the author's tree that it is a copy of.
        go: band or outcome to the step that follows.
        no_reading: where no plausible reading leads; None where it is to be asked again.
    """

    of: str
    go: Mapping[str, str]
    no_reading: str | None = None


@dataclass(frozen=True, slots=True)
class Draft:
    """A tree in outline.

    Attributes:
        start: the first test.
        steps: id to test, each before those that it leads to where they are not shared.
        conclusions: conclusions of the author's tree that are kept.
        evidence: conclusion to the tests that lead to it and speak for it.
        open_ends: id of a new conclusion to the parts that nothing tells apart there.
        unsettled: id of the new conclusion for every other exit.
        put_in: tests that the plan has not, but whose reading a later band refers to.
        named: steps whose copies give their reading the name of the step.
    """

    start: str
    steps: Mapping[str, DraftStep]
    conclusions: tuple[str, ...]
    evidence: Mapping[str, tuple[str, ...]]
    open_ends: Mapping[str, tuple[str, ...]]
    unsettled: str
    put_in: tuple[str, ...]
    named: frozenset[str]
