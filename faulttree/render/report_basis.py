"""The end of a report: cautions, tree, sheet and instruments, and what the shop has to add."""

from collections.abc import Iterator

from faulttree.core.instruments import Instrument
from faulttree.core.tree import Step, System
from faulttree.core.units import Quantity
from faulttree.core.walk.events import ReadingTaken, VehicleDataGiven
from faulttree.core.walk.path import Position
from faulttree.core.walk.state import WalkState
from faulttree.render.markdown_text import words
from faulttree.render.report_facts import asked, instruments_used
from faulttree.render.step import caution_texts

_SHORT_HASH = 12
"""Digits of a hash that are shown: enough to tell versions apart; the case keeps all of it."""
_BLANK = "." * 24


def cautions(state: WalkState, at: Position) -> Iterator[str]:
    """The cautions of the steps taken."""
    steps: list[Step] = [visit.step for visit in at.path]
    ids = [*state.tree.cautions, *(c for step in steps for c in step.cautions)]
    texts = caution_texts(state, ids)
    if not texts:
        return
    yield "## Cautions that applied"
    yield ""
    for text in texts:
        yield f"- {words(text)}"
    yield ""


def basis(state: WalkState, case_id: str) -> Iterator[str]:
    """Which tree and sheet were walked, with which instruments, and where the whole record is."""
    started = state.started
    yield "## Basis of this record"
    yield ""
    if started is not None:
        tree_hash = _short(started.tree_hash)
        yield f"- Tree: {words(started.tree_id)} {started.tree_version}, SHA-256 {tree_hash}"
        if started.vehicle_id:
            sheet_hash = _short(started.vehicle_hash or "")
            sheet = f"{words(started.vehicle_name)} ({words(started.vehicle_id)})"
            yield f"- Vehicle sheet: {sheet}, SHA-256 {sheet_hash}"
    yield from _told(state)
    for instrument in instruments_used(state).values():
        yield f"- Instrument: {words(instrument.name)}{_accuracy(state, instrument)}"
    program = f", written by faulttree {started.program}" if started and started.program else ""
    yield (
        f"- Entries: {len(state.events)}{program}; every one of them, as typed: "
        f"faulttree report {words(case_id)} --json"
    )
    yield ""


def left_to_the_shop(state: WalkState) -> Iterator[str]:
    """What a closed record still needs from the shop before it is signed."""
    if state.closed is None:
        return
    yield "## To be added by the shop, as local rules ask"
    yield ""
    blanks = ["Business and contact", "Parts (new, used, rebuilt), labour, fees"]
    if state.tree.system is System.AIR_CONDITIONING:
        blanks.append("Refrigerant: kind, mass out and in, certificate")
    blanks += ["Warranty; old parts offered back", "What was agreed: when, how, with whom"]
    blanks.append("Date and signature")
    for blank in blanks:
        yield f"- {blank}: {_BLANK}"


def _short(digits: str) -> str:
    return digits if len(digits) <= _SHORT_HASH else f"{digits[:_SHORT_HASH]}…"


def _told(state: WalkState) -> Iterator[str]:
    for event in state.events:
        if isinstance(event, VehicleDataGiven):
            told = words(event.text) if event.text else "not known"
            yield f"- {asked(words(_data_label(state, event.name)))} {told} (told during the work)"


def _data_label(state: WalkState, name: str) -> str:
    needs = state.tree.needs
    if name in needs.points:
        return needs.points[name]
    if name in needs.values:
        return needs.values[name].ask
    return needs.facts[name].ask if name in needs.facts else name


def _accuracy(state: WalkState, instrument: Instrument) -> str:
    """What its maker states, for the quantities that were read with it."""
    readings = (e for e in state.events if isinstance(e, ReadingTaken))
    read = dict.fromkeys(e.quantity for e in readings if e.place.instrument == instrument.id)
    parts = [_stated(instrument, quantity) for quantity in read]
    listed = "; ".join(part for part in parts if part)
    return f", accuracy: {listed}" if listed else ""


def _stated(instrument: Instrument, quantity: Quantity) -> str:
    ranges = instrument.functions.get(quantity, ())
    texts = dict.fromkeys(f"±({words(each.accuracy.text)})" for each in ranges)
    return f"{quantity.words} {' or '.join(texts)}" if texts else ""
