"""The vehicle sheet: pins, wire colours, specified values and facts of one car."""

from typing import Annotated, Literal

from pydantic import Field, Strict, StringConstraints

from faulttree.core.document import Document, Id, Line, Text, Version
from faulttree.core.expression import Expression

Cavity = Annotated[str, Strict(), StringConstraints(min_length=1, max_length=20)]
"""A cavity as it is marked: quote it, so that 07 stays 07."""


class Point(Document):
    """A place to put a lead, as this car names it."""

    connector: Line | None = None
    cavity: Cavity | None = None
    wire: Line | None = None
    where: Text | None = None
    note: Text | None = None

    @property
    def words(self) -> str:
        """The point in one phrase: cavity 30 of K4, red wire, relay box on the left wing."""
        parts = [self._terminal(), f"{self.wire} wire" if self.wire else "", self.where or ""]
        return ", ".join(p for p in parts if p)

    @property
    def short(self) -> str:
        """The point in running text: its cavity, or where it is."""
        return self._terminal() or self.where or self.words

    def _terminal(self) -> str:
        if self.cavity and self.connector:
            return f"cavity {self.cavity} of {self.connector}"
        return self.connector or (f"cavity {self.cavity}" if self.cavity else "")


class VehicleSheet(Document):
    """What is known of one car; the tree asks for what it does not say."""

    format: Literal["vehicle/1"]
    id: Id
    version: Version
    make: Line
    model: Line
    years: Line
    note: Text | None = None
    points: dict[Id, Annotated[Point, Field()]] = {}
    values: dict[Id, Expression] = {}
    facts: dict[Id, Text] = {}

    @property
    def name(self) -> str:
        """Make, model and years in one line."""
        return f"{self.make} {self.model}, {self.years}"
