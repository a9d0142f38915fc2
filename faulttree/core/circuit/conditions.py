"""Conditions on the car's inputs, on what a control unit reads, and on voltages."""

from typing import Annotated

from pydantic import Field, model_validator

from faulttree.core.document import Document, Id
from faulttree.core.expression import Expression


class Condition(Document):
    """One thing that must be so.

    `input` with `is` (states) or with `from` and `below` (a measured input); `reads` with `is`
    (low or high), for a control-input element; `node` with `from` and `below`, a voltage against
    the reference or against the node `against`; or `any`, one of several conditions.
    """

    input: Id | None = None
    reads: Id | None = None
    node: Id | None = None
    against: Id | None = None
    is_: tuple[Id, ...] = ()
    from_: Expression | None = None
    below: Expression | None = None
    any: "tuple[Condition, ...]" = ()

    @model_validator(mode="after")
    def _complete(self) -> "Condition":
        subjects = [s for s in (self.input, self.reads, self.node, self.any) if s]
        if len(subjects) != 1:
            raise ValueError("needs one of input, reads, node, any")
        has_range = self.from_ is not None or self.below is not None
        if self.node and (self.is_ or not has_range):
            raise ValueError("node needs from or below, a voltage")
        if self.reads and (has_range or self.is_ not in (("low",), ("high",))):
            raise ValueError("reads needs is: [low] or is: [high]")
        if self.input and bool(self.is_) == has_range:
            raise ValueError("input needs is, or from and below")
        if self.against and not self.node:
            raise ValueError("against belongs to node")
        return self


Conditions = Annotated[tuple[Condition, ...], Field(min_length=1)]
"""Conditions that must all hold."""
