"""What all documents share: strict fields, hyphenated keys, frozen values."""

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, Strict, StringConstraints


def hyphenated(name: str) -> str:
    """The key of a field in a document: red_lead is written red-lead."""
    return name.rstrip("_").replace("_", "-")


class Document(BaseModel):
    """A frozen part of a document; unknown keys are errors."""

    model_config = ConfigDict(
        extra="forbid", frozen=True, alias_generator=hyphenated, defer_build=True
    )


Id = Annotated[
    str,
    Strict(),
    StringConstraints(pattern=r"^[a-z][a-z0-9]*(-[a-z0-9]+)*$", max_length=60),
]
"""Lower case letters, digits and single hyphens, starting with a letter."""
Line = Annotated[str, Strict(), StringConstraints(min_length=1, max_length=60, pattern=r"^[^\n]*$")]
"""One short line."""
Text = Annotated[
    str, Strict(), StringConstraints(min_length=1, max_length=2000, strip_whitespace=True)
]
"""Running text."""
Version = Annotated[
    str, Strict(), StringConstraints(pattern=r"^(0|[1-9]\d*)\.(0|[1-9]\d*)\.(0|[1-9]\d*)$")
]
"""A semantic version: three numbers with points."""
Date = Annotated[str, Strict(), StringConstraints(pattern=r"^\d{4}-\d{2}-\d{2}$")]
"""A date, year first."""
Minutes = Annotated[float, Strict(), Field(ge=0, le=600)]
"""Minutes of a prepared technician."""
Cycles = Annotated[int, Strict(), Field(ge=1, le=10000)]
"""How many times."""
