"""Events from the verdict to the end of a case: its proof, the repair, and what proves that."""

from typing import Literal

from pydantic import Field, model_validator

from faulttree.core.walk.event_parts import Happening, Words


class Concluded(Happening):
    """A conclusion was accepted; `uncleared` are the readings it was accepted in spite of."""

    event: Literal["concluded"] = "concluded"
    step: str
    uncleared: tuple[int, ...] = ()
    missing: tuple[str, ...] = ()


class ProofGiven(Happening):
    """How the proof of a verdict came out."""

    event: Literal["proof-result"] = "proof-result"
    step: str
    result: Literal["held", "failed", "not-done"]
    reason: Words = ""


class RepairChosen(Happening):
    """The repair that was made, or None when none was."""

    event: Literal["repair-chosen"] = "repair-chosen"
    step: str
    repair: str | None
    note: Words = ""


class TriesCounted(Happening):
    """How often the complaint showed before the repair: `seen` times in `tries` tries.

    A later one takes its place; `tries` is 0 where a count is taken back. `confidence` is what a
    repair is to be proved with.
    """

    event: Literal["tries-counted"] = "tries-counted"
    step: str
    seen: int = Field(ge=0)
    tries: int = Field(ge=0)
    confidence: float = Field(default=0.95, gt=0, lt=1)

    @model_validator(mode="after")
    def _seen_in_tries(self) -> "TriesCounted":
        if self.seen > self.tries:
            raise ValueError("seen more often than tried")
        return self


class CycleRun(Happening):
    """One cycle of the proving run."""

    event: Literal["verification-cycle"] = "verification-cycle"
    step: str
    clean: bool
    note: Words = ""


class Closed(Happening):
    """The case is finished."""

    event: Literal["closed"] = "closed"
    note: Words = ""
