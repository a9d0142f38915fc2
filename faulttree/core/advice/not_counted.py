"""Steps of a tree that do not take part in the order of its tests, and why."""

from dataclasses import dataclass

from faulttree.core.advice.outcomes import Tellings
from faulttree.core.bench.bench import Bench
from faulttree.core.tree import Measure, Observe, WorkOut


@dataclass(frozen=True, slots=True)
class NotCounted:
    """Steps that are left aside, each in one of these.

    Attributes:
        sums: values worked out from readings.
        away: tests done while the complaint is away.
        unanswered: tests that the circuit cannot answer.
        idle: tests that tell none of the cars apart.
    """

    sums: tuple[str, ...]
    away: tuple[str, ...]
    unanswered: tuple[str, ...]
    idle: tuple[str, ...]


def not_counted(bench: Bench, tellings: Tellings) -> NotCounted:
    """Every step that is read or seen and is none of the tests to order."""
    steps = bench.tree.steps
    sums = tuple(name for name, step in steps.items() if isinstance(step, WorkOut))
    told = {test.step_id for test in tellings.tests}
    away, unanswered, idle = [], [], []
    for name in dict.fromkeys(step_id for step_id, _ in bench.keys):
        step = steps[name]
        if name in told or not isinstance(step, Measure | Observe):
            continue
        if bench.sheet.tests[name].anything:
            unanswered.append(name)
        elif step.set_up.complaint == "absent":
            away.append(name)
        else:
            idle.append(name)
    return NotCounted(sums, tuple(away), tuple(unanswered), tuple(idle))
