"""Whether a sight holds in every car on the bench: surely, perhaps, or not.

Perhaps, where a judgement by eye or ear may go either way, or where a relay chatters.
"""

from collections.abc import Callable, Iterable, Mapping

import numpy as np
from numpy.typing import NDArray

from faulttree.core.bench.document import Sight
from faulttree.core.bench.looks import Bools, Floats, Look, Looks, Range
from faulttree.core.bench.setting import Setting, inputs_si
from faulttree.core.circuit.amounts import si
from faulttree.core.expression import Expression
from faulttree.core.uncertain import exactly
from faulttree.core.units import Quantity

NO, PERHAPS, SURELY = 0, 1, 2
"""How a sight holds."""
Holds = NDArray[np.int8]
"""One of the three for each row."""


def all_hold(looks: Looks, sights: Iterable[Sight], setting: Setting) -> Holds:
    """How surely all of some sights hold in every row, shape (n_rows,)."""
    found = np.full(len(looks.rows), SURELY, np.int8)
    for sight in sights:
        found = np.minimum(found, holds(looks, sight, setting))
    return found


def holds(looks: Looks, sight: Sight, setting: Setting) -> Holds:
    """How surely a sight holds in every row, shape (n_rows,)."""
    there = setting.having(inputs_si(looks.circuit.model, sight.at))
    if sight.any is not None:
        found = [holds(looks, each, there) for each in sight.any]
        return np.asarray(np.max(found, axis=0), np.int8)
    if sight.not_ is not None:
        return np.asarray(SURELY - all_hold(looks, sight.not_, there), np.int8)
    if sight.faulty is not None:
        return _faulty(looks, sight)
    if sight.input is not None:
        return _input(looks, sight, there)
    look = looks.at(there)
    if sight.blown is not None:
        return _sure(look.blown(sight.blown))
    if sight.pulls is not None or sight.reads is not None:
        return _control(look, sight)
    return _in_range(looks, sight, *_RANGES[_subject(sight)](look, sight))


_RANGES: Mapping[str, Callable[[Look, Sight], tuple[Range, Quantity]]] = {
    "current": lambda look, s: (look.current(s.current or ""), Quantity.CURRENT),
    "voltage": lambda look, s: (look.voltage(*(s.voltage or ("", ""))), Quantity.VOLTAGE),
    "light": lambda look, s: (look.light(s.light or ""), Quantity.RATIO),
}


def _subject(sight: Sight) -> str:
    return next(name for name in _RANGES if getattr(sight, name) is not None)


def _sure(is_so: Bools) -> Holds:
    return np.where(is_so, SURELY, NO).astype(np.int8)


def _faulty(looks: Looks, sight: Sight) -> Holds:
    names = sight.faulty or ()
    is_one = [row.suspect is not None and row.suspect.is_named_by(names) for row in looks.rows]
    seen = PERHAPS if sight.may_miss else SURELY
    return np.where(is_one, seen, NO).astype(np.int8)


def _input(looks: Looks, sight: Sight, setting: Setting) -> Holds:
    """The circuit says how each car is set; a sight on inputs is the same condition there."""
    model, name = looks.circuit.model, sight.input or ""
    quantity = model.quantities.get(name)
    set_here = dict(setting.inputs)
    found = []
    for row in looks.rows:
        value = set_here.get(name, row.form.inputs.get(name))
        if quantity is None:
            found.append((model.inputs[name].usual.text if value is None else value) in sight.is_)
            continue
        at = si(model.inputs[name].usual, quantity) if value is None else float(value)
        is_above = sight.from_ is None or at >= si(sight.from_, quantity)
        found.append(is_above and (sight.below is None or at < si(sight.below, quantity)))
    return _sure(np.array(found))


def _control(look: Look, sight: Sight) -> Holds:
    is_off, is_on = look.control(f"{sight.pulls}.coil" if sight.pulls else sight.reads or "")
    both = is_off & is_on
    if "chatters" in sight.is_:
        is_off, is_on = is_off & ~both, is_on & ~both
        named = np.zeros_like(both) | both
    else:
        named = np.zeros_like(both)
    wants_on = {"in", "high"} & set(sight.is_)
    wants_off = {"out", "low"} & set(sight.is_)
    named = named | (is_on if wants_on else False) | (is_off if wants_off else False)
    is_sure = ~both | ("chatters" in sight.is_) | bool(wants_on and wants_off)
    return np.where(named, np.where(is_sure, SURELY, PERHAPS), NO).astype(np.int8)


def _in_range(looks: Looks, sight: Sight, found: Range, quantity: Quantity) -> Holds:
    low, high = found
    about = si(sight.about, Quantity.RATIO) if sight.about else 0.0
    normal = low[looks.normal]
    holds = np.full(len(low), SURELY, np.int8)
    if sight.from_ is not None:
        edge = _edge(sight.from_, quantity, normal)
        holds = np.minimum(holds, _above(low, high, edge, about))
    if sight.below is not None:
        edge = _edge(sight.below, quantity, normal)
        holds = np.minimum(holds, SURELY - _above(low, high, edge, about))
    return np.asarray(holds, np.int8)


def _above(low: Floats, high: Floats, edge: Floats, about: float) -> Holds:
    """Surely at or above the edge, perhaps, or surely below it."""
    margin = np.abs(edge) * about
    surely, not_at_all = low >= edge + margin, high < edge - margin
    if about == 0.0:
        not_at_all = high < edge
    return np.where(surely, SURELY, np.where(not_at_all, NO, PERHAPS)).astype(np.int8)


def _edge(written: Expression, quantity: Quantity, normal: Floats) -> Floats:
    """An edge in every row; `normal` is what the healthy car shows."""
    if "normal" not in written.names:
        return np.full(len(normal), si(written, quantity))
    evaluate = written.evaluator(quantity, {"normal": quantity})
    by_value = {v: evaluate({"normal": exactly(v)}).value for v in set(normal.tolist())}
    return np.array([by_value[v] for v in normal.tolist()])
