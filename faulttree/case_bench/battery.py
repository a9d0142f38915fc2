"""The battery of the car that is walked: what was last measured between its posts."""

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass

from faulttree.core.tree import BATTERY_VOLTAGE, Engine, Measure, Observe, Tree, WorkOut
from faulttree.core.uncertain import CannotWorkOut
from faulttree.core.units import Quantity
from faulttree.core.walk.events import ReadingTaken
from faulttree.core.walk.judge import value_of
from faulttree.core.walk.readings import BATTERY_PLAUSIBLE_V
from faulttree.core.walk.state import WalkState

POSTS = ("battery positive post", "battery negative post")
"""Where red and black lead go for the battery voltage, as the walk itself records it."""


@dataclass(frozen=True, slots=True)
class PostVolts:
    """The last battery voltage measured, with the engine stopped and with it running [V].

    None where there is none. Cranking counts for neither: the posts are far below their EMF then.
    """

    stopped: float | None = None
    running: float | None = None

    def lacking(self, engines: frozenset[Engine]) -> str:
        """The state of the engine that no battery voltage was measured in, in words; or nothing."""
        for engine in sorted(engines):
            if (self.running if _turns(engine) else self.stopped) is None:
                return "running" if _turns(engine) else "stopped"
        return ""

    def told(self, engines: frozenset[Engine]) -> Iterator[tuple[str, float]]:
        """The states of the engine that matter, in words, with their voltages [V]."""
        for turns, words, volts in (
            (False, "stopped", self.stopped),
            (True, "running", self.running),
        ):
            if volts is not None and any(_turns(engine) is turns for engine in engines):
                yield words, volts


def post_volts(state: WalkState) -> PostVolts:
    """What the readings that stand tell of the battery."""
    low, high = BATTERY_PLAUSIBLE_V
    found: dict[bool, float] = {}
    for seq, (event, _) in sorted(state.readings.items()):
        if not isinstance(event, ReadingTaken) or not _stands(state, event):
            continue
        engine = event.place.engine
        if engine in (None, Engine.CRANKING) or not _is_of_battery(state.tree, event):
            continue
        with suppress(CannotWorkOut):
            volts = value_of(state, seq).value
            if low <= volts < high:
                found[_turns(Engine(engine))] = volts
    return PostVolts(found.get(False), found.get(True))


def engines_at(tree: Tree, step_id: str, within: tuple[str, ...] = ()) -> frozenset[Engine]:
    """The states of the engine that a step is done in; for a sum, those of its readings.

    A sum of vehicle data alone is taken as one of a car that stands.

    Args:
        tree: the tree.
        step_id: the step.
        within: sums that it is looked at for.
    """
    step = tree.steps[step_id]
    if isinstance(step, Measure | Observe):
        return frozenset((step.set_up.engine,))
    if not isinstance(step, WorkOut) or step_id in within:
        return frozenset()
    sources = _sources(tree, step)
    found = frozenset().union(*(engines_at(tree, s, (*within, step_id)) for s in sources))
    return found or frozenset((Engine.STOPPED,))


def _sources(tree: Tree, step: WorkOut) -> Iterator[str]:
    """The steps that give the names in a sum; the battery is read beside one of them."""
    names = step.value.names - {BATTERY_VOLTAGE} or step.value.names
    for name, each in tree.steps.items():
        if isinstance(each, Measure | WorkOut) and (name in names or each.as_ in names):
            yield name


def _turns(engine: Engine) -> bool:
    """Whether the generator feeds the car."""
    return engine not in (Engine.STOPPED, Engine.CRANKING)


def _stands(state: WalkState, event: ReadingTaken) -> bool:
    return state.stands(event.seq) and not event.kept_though_implausible


def _is_of_battery(tree: Tree, event: ReadingTaken) -> bool:
    """Whether it was read as battery voltage, or with the leads on the posts."""
    step = tree.steps.get(event.step)
    is_named = isinstance(step, Measure) and step.as_ == BATTERY_VOLTAGE
    return event.slot != "step" or is_named or _is_across_posts(event)


def _is_across_posts(event: ReadingTaken) -> bool:
    place = event.place
    return event.quantity is Quantity.VOLTAGE and (place.red_lead, place.black_lead) == POSTS
