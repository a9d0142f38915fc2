"""The table of likelihoods: what the steps of a tree show under each suspect, by its author.

It stands in for a circuit model where a tree has none: see docs/likelihoods-format.md.
"""

from typing import Annotated, Literal

from pydantic import Field

from faulttree.core.circuit.amounts import FixedShare
from faulttree.core.circuit.elements import Intermittent, Weight
from faulttree.core.document import Document, Id, Line, Text, Version

HEALTHY, OTHERS = "healthy", "others"
"""Rows that are no suspects: a car without a fault, and all suspects without a row of their own."""

Row = Annotated[dict[Line, FixedShare], Field(min_length=1)]
"""Band or outcome to its share."""
Rows = Annotated[dict[Id, Row], Field(min_length=1)]
"""Suspect, or one of the two that are none, to what a step shows then."""


class TableSuspect(Document):
    """One thing that may be wrong."""

    words: Line
    part: Line
    weight: Weight = 1.0
    intermittent: Intermittent | None = None


class LikelihoodTable(Document):
    """A whole table."""

    format: Literal["likelihoods/1"]
    id: Id
    version: Version
    tree: Id
    note: Text | None = None
    suspects: Annotated[dict[Id, TableSuspect], Field(min_length=2)]
    readings: Annotated[dict[Id, Rows], Field(min_length=1)]
