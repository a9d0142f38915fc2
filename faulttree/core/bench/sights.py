"""Whether a sight holds in every car on the bench: surely, perhaps, or not.

Perhaps, where a judgement by eye or ear may go either way, or where a relay chatters.
"""

from collections.abc import Iterable, Iterator, Mapping

import numpy as np
from numpy.typing import NDArray

from faulttree.core.bench.document import NORMAL, Sight
from faulttree.core.bench.looks import Look, Looks
from faulttree.core.bench.setting import Setting, inputs_si
from faulttree.core.bench.solved_rows import Bools, Floats, Range, Rows
from faulttree.core.circuit.amounts import si
from faulttree.core.expression import Expression
from faulttree.core.uncertain import exactly
from faulttree.core.units import Quantity

NO, PERHAPS, SURELY = 0, 1, 2
"""How a sight holds."""
Holds = NDArray[np.int8]
"""One of the three for each row."""


def all_hold(looks: Looks, sights: Iterable[Sight], setting: Setting, rows: Rows) -> Holds:
    """How surely all of some sights hold in some rows, shape (n,)."""
    sights = tuple(sights)
    wanted = dict.fromkeys(there for sight in sights for there in looked_at(looks, sight, setting))
    looks.prepare(wanted, np.union1d(rows, looks.normal[rows]))
    found = np.full(len(rows), SURELY, np.int8)
    for sight in sights:
        found = np.minimum(found, holds(looks, sight, setting, rows))
    return found


def looked_at(looks: Looks, sight: Sight, setting: Setting) -> Iterator[Setting]:
    """The settings in which a sight looks at the cars' wires."""
    there = setting.having(inputs_si(looks.circuit.model, sight.at))
    composed = (sight.any, sight.all, sight.not_)
    for inner in (each for part in composed for each in part or ()):
        yield from looked_at(looks, inner, there)
    if composed != (None, None, None) or sight.faulty is not None:
        return
    if sight.input is None or looks.is_shown(sight.input):
        yield there


def holds(looks: Looks, sight: Sight, setting: Setting, rows: Rows) -> Holds:
    """How surely a sight holds in some rows, shape (n,)."""
    there = setting.having(inputs_si(looks.circuit.model, sight.at))
    if sight.any is not None:
        found = [holds(looks, each, there, rows) for each in sight.any]
        return np.asarray(np.max(found, axis=0), np.int8)
    if sight.all is not None:
        return all_hold(looks, sight.all, there, rows)
    if sight.not_ is not None:
        return np.asarray(SURELY - all_hold(looks, sight.not_, there, rows), np.int8)
    if sight.faulty is not None:
        return _faulty(looks, sight, rows)
    if sight.input is not None:
        return _input(looks, sight, there, rows)
    look = looks.at(there)
    if sight.blown is not None:
        return _sure(look.blown(sight.blown, rows))
    if sight.pulls is not None or sight.reads is not None:
        return _control(look, sight, rows)
    return _in_range(looks, look, sight, rows)


def quantity_of(sight: Sight, quantities: Mapping[str, Quantity]) -> Quantity:
    """What the range of a sight is.

    Args:
        sight: one on a current, a voltage, a light, or a measured input.
        quantities: those of the measured inputs.
    """
    if sight.input is not None:
        return quantities[sight.input]
    if sight.current is not None:
        return Quantity.CURRENT
    return Quantity.VOLTAGE if sight.voltage is not None else Quantity.RATIO


def _seen(look: Look, sight: Sight, rows: Rows) -> Range:
    """The value that the range of a sight is about [SI]."""
    if sight.input is not None:
        found = look.measured(sight.input, rows)
        return found, found
    if sight.current is not None:
        return look.current(sight.current, rows)
    if sight.voltage is not None:
        return look.voltage(*sight.voltage, rows)
    return look.light(sight.light or "", rows)


def _sure(is_so: Bools) -> Holds:
    return np.where(is_so, SURELY, NO).astype(np.int8)


def _faulty(looks: Looks, sight: Sight, rows: Rows) -> Holds:
    names = sight.faulty or ()
    suspects = [looks.rows[i].suspect for i in rows.tolist()]
    is_one = [suspect is not None and suspect.is_named_by(names) for suspect in suspects]
    seen = PERHAPS if sight.may_miss else SURELY
    return np.where(is_one, seen, NO).astype(np.int8)


def _input(looks: Looks, sight: Sight, setting: Setting, rows: Rows) -> Holds:
    """Whether each car is set so, or its loop shows it."""
    model, name = looks.circuit.model, sight.input or ""
    if name in model.quantities:
        return _in_range(looks, looks.at(setting), sight, rows)
    set_here, usual = dict(setting.inputs), model.inputs[name].usual.text
    found = (looks.found(i) for i in rows.tolist())
    states = [set_here.get(name, car.get(name, usual)) for car in found]
    return _sure(np.array([state in sight.is_ for state in states], bool))


def _control(look: Look, sight: Sight, rows: Rows) -> Holds:
    name = f"{sight.pulls}.coil" if sight.pulls else sight.reads or ""
    is_off, is_on = look.control(name, rows)
    chatters = is_off & is_on
    wanted = set(sight.is_)
    may_be = np.zeros(len(rows), bool)
    if wanted & {"in", "high"}:
        may_be |= is_on
    if wanted & {"out", "low"}:
        may_be |= is_off
    surely = may_be & ~chatters
    if "chatters" in wanted:
        surely |= chatters
        may_be |= chatters
    elif len(wanted) == 2:
        surely |= may_be
    return np.where(surely, SURELY, np.where(may_be, PERHAPS, NO)).astype(np.int8)


def _in_range(looks: Looks, look: Look, sight: Sight, rows: Rows) -> Holds:
    quantity = quantity_of(sight, looks.circuit.model.quantities)
    low, high = _seen(look, sight, rows)
    about = si(sight.about, Quantity.RATIO) if sight.about else 0.0
    found = np.full(len(low), SURELY, np.int8)
    for edge, is_lower in ((sight.from_, True), (sight.below, False)):
        if edge is None:
            continue
        normal = np.zeros(len(rows))
        if NORMAL in edge.names:
            normal = _seen(look, sight, looks.normal[rows])[0]
        is_above = _above(low, high, _edge(edge, quantity, normal), about)
        found = np.minimum(found, is_above if is_lower else SURELY - is_above)
    return np.asarray(found, np.int8)


def _above(low: Floats, high: Floats, edge: Floats, about: float) -> Holds:
    """Surely at or above the edge, perhaps, or surely below it."""
    margin = np.abs(edge) * about
    surely, not_at_all = low >= edge + margin, high < edge - margin
    return np.where(surely, SURELY, np.where(not_at_all, NO, PERHAPS)).astype(np.int8)


def _edge(written: Expression, quantity: Quantity, normal: Floats) -> Floats:
    """An edge in every row; `normal` is what the healthy car shows."""
    if NORMAL not in written.names:
        return np.full(len(normal), si(written, quantity))
    evaluate = written.evaluator(quantity, {NORMAL: quantity})
    by_value = {v: evaluate({NORMAL: exactly(v)}).value for v in set(normal.tolist())}
    return np.array([by_value[v] for v in normal.tolist()])
