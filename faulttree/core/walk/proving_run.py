"""The proving run in numbers: how many clean cycles are wanted, and what those run so far prove."""

from dataclasses import dataclass

from faulttree.core.proving import (
    USUAL_CONFIDENCE,
    chance_if_unchanged,
    clean_cycles_needed,
    confidence_after_returns,
    largest_rate,
)
from faulttree.core.tree import Conclude
from faulttree.core.walk.events import CycleRun
from faulttree.core.walk.state import WalkState


@dataclass(frozen=True, slots=True)
class Tries:
    """How often the complaint showed, in how many tries."""

    seen: int
    tries: int


@dataclass(frozen=True, slots=True)
class ProvingRun:
    """A proving run as far as it has come.

    Attributes:
        cycles: all cycles run at this conclusion.
        clean: clean cycles in a row at the end of them.
        returns: cycles in which the complaint came back.
        wanted: clean cycles in a row that are wanted.
        asked_by_tree: the number the author of the tree gives.
        before: tries before these clean ones; None while none was counted before the repair.
        is_counted_late: the tries before the repair were written down only after it.
        confidence: what the statements below hold with, between 0 and 1.
    """

    cycles: int
    clean: int
    returns: int
    wanted: int
    asked_by_tree: int
    before: Tries | None
    is_counted_late: bool
    confidence: float

    @property
    def is_done(self) -> bool:
        """True when as many clean cycles were run as are wanted."""
        return self.clean >= self.wanted

    @property
    def luck(self) -> float | None:
        """Chance of so long a clean run if nothing was changed; None where nothing tells it."""
        if self.before is None or not self.before.seen:
            return None
        return chance_if_unchanged(self.before.seen, self.before.tries, self.clean)

    def largest_rate(self, clean: int | None = None) -> float | None:
        """Largest chance per cycle that fits the clean cycles run, or a number of them."""
        clean = self.clean if clean is None else clean
        return largest_rate(clean, self.confidence) if clean else None


def proving_run(state: WalkState, step_id: str) -> ProvingRun | None:
    """The proving run of a conclusion; None where there is none, or no repair was made."""
    step = state.tree.steps[step_id]
    repair = state.repairs.get(step_id)
    if not isinstance(step, Conclude) or step.verify is None:
        return None
    if repair is None or repair.repair is None:
        return None
    cycles = state.cycles.get(step_id, ())
    before = tries_before(state, step_id)
    returns = sum(not cycle.clean for cycle in cycles)
    counted = state.tries
    confidence = counted.confidence if counted else USUAL_CONFIDENCE
    held_to = confidence_after_returns(confidence, returns)
    return ProvingRun(
        cycles=len(cycles),
        clean=clean_at_end(cycles),
        returns=returns,
        wanted=cycles_wanted(before, held_to) or step.verify.cycles,
        asked_by_tree=step.verify.cycles,
        before=before,
        is_counted_late=counted is not None and counted.seq > repair.seq,
        confidence=confidence,
    )


def cycles_planned(state: WalkState, step_id: str) -> int | None:
    """Clean cycles that a count asks for at a conclusion, repaired or not; None without one."""
    run = proving_run(state, step_id)
    if run is not None:
        return run.wanted
    confidence = state.tries.confidence if state.tries else USUAL_CONFIDENCE
    return cycles_wanted(tries_before(state, step_id), confidence)


def cycles_wanted(before: Tries | None, confidence: float) -> int | None:
    """Clean cycles in a row that show a change; None where what was counted cannot tell."""
    if before is None or not before.seen:
        return None
    return clean_cycles_needed(before.seen, before.tries, confidence)


def tries_before(state: WalkState, step_id: str) -> Tries | None:
    """How often the complaint showed before the clean cycles of a conclusion's proving run.

    Those counted before the repair, all cycles after an earlier repair that did not help, and the
    cycles of this run up to the last one in which the complaint came back. None while none was
    counted before the repair: the tree's own number of cycles holds then.
    """
    if state.tries is None:
        return None
    runs = [_failed_run(state, name) for name in state.proofs if name != step_id]
    cycles = state.cycles.get(step_id, ())
    runs.append(tuple(c.clean for c in cycles[: len(cycles) - clean_at_end(cycles)]))
    every = [clean for run in runs for clean in run]
    return Tries(
        state.tries.seen + sum(not clean for clean in every), state.tries.tries + len(every)
    )


def _failed_run(state: WalkState, step_id: str) -> tuple[bool, ...]:
    """The cycles after a repair that did not help, with the return that ended them."""
    if state.proofs[step_id].result != "failed" or step_id not in state.repairs:
        return ()
    cycles = state.cycles.get(step_id, ())
    is_recorded = bool(cycles) and not cycles[-1].clean
    return (*(c.clean for c in cycles), *(() if is_recorded else (False,)))


def clean_at_end(cycles: tuple[CycleRun, ...]) -> int:
    """Clean cycles in a row at the end of these."""
    count = 0
    for cycle in cycles:
        count = count + 1 if cycle.clean else 0
    return count


def clean_cycles(state: WalkState, step_id: str) -> int:
    """Clean cycles in a row at the end of a proving run so far."""
    return clean_at_end(state.cycles.get(step_id, ()))
