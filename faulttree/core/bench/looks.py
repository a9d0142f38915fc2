"""Looks at the cars on the bench: what is on their wires when they are set in some way.

Cars are rows; each is solved once for each setting, when it is first looked at.
"""

import math
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import NamedTuple

import numpy as np

from faulttree.core.bench.document import BatteryState, BenchSheet, Feed, SupplyName
from faulttree.core.bench.loop_looks import LoopLooks
from faulttree.core.bench.loop_runs import Values
from faulttree.core.bench.setting import Inputs, Setting, inputs_si
from faulttree.core.bench.solved_rows import Bools, Floats, Range, Rows, SolvedRows
from faulttree.core.bench.suspects import Row
from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.attached import Spread
from faulttree.core.circuit.cases import Cases, FaultSet
from faulttree.core.circuit.circuit import Circuit, State
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.edits import Between
from faulttree.core.circuit.faults import Injected
from faulttree.core.circuit.loop_document import SHOWN
from faulttree.core.circuit.netlist import Supply
from faulttree.core.circuit.probes import Probe
from faulttree.core.circuit.solve import Solved, solve
from faulttree.core.units import Quantity


class Supplied(NamedTuple):
    """What a car is tried with: its battery, and the day.

    Attributes:
        stopped, running: the battery with the engine stopped, and with it running.
        day: inputs that the day sets, such as the weather; a fault or a look may set them anew.
    """

    stopped: Supply
    running: Supply
    day: Inputs = MappingProxyType({})

    def at(self, is_running: bool) -> Supply:
        """The battery with the engine in a state."""
        return self.running if is_running else self.stopped


class Looks:
    """Solves the circuit in rows, once for each setting.

    Attributes:
        rows: the cars.
        normal: index of the healthy car at the same supply, shape (n_rows,).
    """

    def __init__(self, circuit: Circuit, supplies: Mapping[str, Supplied], rows: Sequence[Row]):
        self.circuit, self.rows = circuit, tuple(rows)
        self._supplies = supplies
        healthy = {row.supply: i for i, row in enumerate(self.rows) if row.suspect is None}
        self.normal = np.array([healthy[row.supply] for row in self.rows], np.intp)
        self._looks: dict[Setting, Look] = {}
        self._loop = LoopLooks(circuit) if circuit.model.loop else None
        fuses = sum(math.isfinite(b.opens_above_a) for b in circuit.netlist.branches)
        self._gone = np.zeros((len(self.rows), fuses), bool)

    def keep_blown(self, settings: Iterable[Setting]) -> None:
        """From now on, fuses that have gone in some settings are gone in all of them.

        A car comes to the shop with its fuse blown, however little current the next test takes.
        """
        every = np.arange(len(self.rows))
        gone = np.logical_or.reduce([self.at(s).gone(every) for s in settings] or [self._gone])
        changed = np.flatnonzero((gone & ~self._gone).any(axis=1))
        self._gone |= gone
        for look in self._looks.values():
            look.forget(changed)

    def _found(self, row: Row) -> Inputs:
        """Inputs of a car as it is found: by the day, and by what is wrong with it."""
        return {**self._supplies[row.supply].day, **row.form.inputs}

    def found(self, index: int) -> Inputs:
        """The same for the car in a row."""
        return self._found(self.rows[index])

    def is_shown(self, name: str) -> bool:
        """Whether the refrigerant loop shows what has this name."""
        return self._loop is not None and name in SHOWN

    def none_blown(self) -> Bools:
        """An array of fuses in which none has gone, shape (n_rows, n_fuses)."""
        return np.zeros_like(self._gone)

    def at(self, setting: Setting) -> "Look":
        """The cars in a setting."""
        if setting not in self._looks:
            self._looks[setting] = Look(self, setting)
        return self._looks[setting]

    def prepare(self, settings: Iterable[Setting], rows: Rows) -> None:
        """Solve cars in several settings at once, which takes less time than one by one."""
        looks = [self.at(setting) for setting in settings]
        missing = [(look, look.missing(rows)) for look in looks]
        missing = [(look, there) for look, there in missing if there.size]
        if not missing:
            return
        cases = [(look.setting, row) for look, there in missing for row in there.tolist()]
        gone = self._gone[[row for _, row in cases]]

        def solved_with(shown: Sequence[Values]) -> Solved:
            return solve(self.circuit, self._cases(cases, shown), gone)

        shown, begin = self._shown(cases, solved_with), 0
        solved = solved_with(shown)
        for look, there in missing:
            piece = solved.part(np.arange(begin, begin + len(there)))
            end = begin + len(there)
            look.take(SolvedRows(self.circuit, piece, there), shown[begin:end])
            begin = end

    def _shown(
        self, cases: Sequence[tuple[Setting, int]], solved_with: Callable[..., Solved]
    ) -> list[Values]:
        """What the refrigerant loop of each case shows; nothing where the car has none."""
        if self._loop is None:
            return [{}] * len(cases)
        every = np.arange(len(cases))
        return self._loop.shown(
            [(setting, self._found(self.rows[row])) for setting, row in cases],
            lambda shown: SolvedRows(self.circuit, solved_with(shown), every),
        )

    def _cases(self, wanted: Sequence[tuple[Setting, int]], shown: Sequence[Values]) -> Cases:
        states: dict[Hashable, int] = {}
        faults: dict[FaultSet, int] = {}
        found: list[State] = []
        state_of, fault_of = [], []
        followed = sorted(self._loop.followed) if self._loop else ()
        for (setting, index), values in zip(wanted, shown, strict=True):
            row = self.rows[index]
            around = {name: values[name] for name in followed}
            inputs = id(row.form.inputs) if row.form.inputs else 0
            key = setting, row.supply, inputs, tuple(around.values())
            if key not in states:
                states[key] = len(found)
                found.append(self._state(setting, row, around))
            state_of.append(states[key])
            put_in = (*row.form.injected, *_loads(setting))
            fault_of.append(faults.setdefault(put_in, len(faults)))
        return Cases(tuple(found), tuple(faults), np.array(state_of), np.array(fault_of))

    def _state(self, setting: Setting, row: Row, around: Values) -> State:
        inputs = {**self._found(row), **dict(setting.inputs), **around}
        return State(
            inputs={n: v for n, v in inputs.items() if n in self.circuit.model.inputs},
            supply=self._supplies[row.supply].at(setting.is_running),
            removed=setting.removes,
            bridges=setting.bridges,
            elapsed_s=setting.elapsed_s,
        )


class Look:
    """What is on the wires of the cars in one setting; all methods take rows, shape (n,).

    Attributes:
        setting: how the cars are set.
    """

    def __init__(self, looks: Looks, setting: Setting) -> None:
        self._looks, self.setting = looks, setting
        self._pieces: list[SolvedRows] = []
        self._shown: dict[int, Values] = {}
        self._is_solved = np.zeros(len(looks.rows), bool)

    def current(self, name: str, rows: Rows) -> Range:
        """Current of a branch, or of an element of one branch, either way round [A]."""
        return self._gathered(rows, lambda piece: piece.current(name))

    def voltage(self, a: str, b: str, rows: Rows) -> Range:
        """Voltage from one node to another [V]."""
        return self._gathered(rows, lambda piece: piece.voltage(a, b))

    def light(self, name: str, rows: Rows) -> Range:
        """Light of a lamp as a share of its light at rated voltage."""
        return self._gathered(rows, lambda piece: piece.light(name))

    def measured(self, name: str, rows: Rows) -> Floats:
        """A measured input [SI]: as it is set, as the loop shows it, or as usual."""
        model = self._looks.circuit.model
        here, quantity = dict(self.setting.inputs), model.quantities[name]
        as_usual = si(model.inputs[name].usual, quantity)
        if self._looks.is_shown(name):
            self._solve(rows)
        found = []
        for index in rows.tolist():
            own = self._looks.found(index).get(name, as_usual)
            shown = self._shown.get(index, {}).get(name, own)
            found.append(float(here.get(name, shown)))
        return np.array(found)

    def control(self, name: str, rows: Rows) -> tuple[Bools, Bools]:
        """Whether a control is off, and whether it is on, at some time; both where it chatters."""
        is_off, is_on = self._gathered(rows, lambda piece: piece.control(name))
        return is_off > 0, is_on > 0

    def blown(self, name: str, rows: Rows) -> Bools:
        """Whether a fuse has gone."""
        found, _ = self._gathered(rows, lambda piece: (piece.blown(name), piece.blown(name)))
        return np.asarray(found > 0)

    def readings(self, probes: Sequence[Probe], rows: Rows) -> list[Spread]:
        """What probes show, one after the other, shape (n,) each."""
        self._solve(rows)
        n_all = len(self._looks.rows)
        low, high = np.empty((len(probes), n_all)), np.empty((len(probes), n_all))
        flags = np.zeros((len(probes), n_all), np.uint8)
        for piece in self._pieces:
            wanted = piece.among(rows)
            for index, spread in enumerate(piece.readings(probes, wanted)):
                there = piece.rows[wanted]
                low[index, there], high[index, there] = spread.low, spread.high
                flags[index, there] = spread.flags
        return [
            Spread(a, b, c)
            for a, b, c in zip(low[:, rows], high[:, rows], flags[:, rows], strict=True)
        ]

    def _gathered(
        self, rows: Rows, value: Callable[[SolvedRows], tuple[Floats | Bools, Floats | Bools]]
    ) -> Range:
        self._solve(rows)
        low, high = np.empty(len(self._looks.rows)), np.empty(len(self._looks.rows))
        for piece in self._pieces:
            low[piece.rows], high[piece.rows] = value(piece)
        return low[rows], high[rows]

    def gone(self, rows: Rows) -> Bools:
        """Fuses that have gone, shape (n, n_fuses), in the order of the branches."""
        self._solve(rows)
        found = self._looks.none_blown()
        for piece in self._pieces:
            found[piece.rows] = piece.gone
        return found[rows]

    def forget(self, rows: Rows) -> None:
        """Have some cars solved anew when they are next looked at."""
        self._is_solved[rows] = False

    def missing(self, rows: Rows) -> Rows:
        """Those of some cars that are not solved yet."""
        return np.unique(rows[~self._is_solved[rows]])

    def take(self, piece: SolvedRows, shown: Sequence[Values]) -> None:
        """Add cars that were solved in this setting, with what the loop of each shows."""
        self._pieces.append(piece)
        self._shown.update(zip(piece.rows.tolist(), shown, strict=True))
        self._is_solved[piece.rows] = True

    def _solve(self, rows: Rows) -> None:
        self._looks.prepare([self.setting], rows)


def _loads(setting: Setting) -> FaultSet:
    """The loads of a setting, put in as faults are."""
    if not setting.loads:
        return ()
    return (Injected("loads", tuple(Between(a, b, ohm) for a, b, ohm in setting.loads)),)


def supplied(sheet: BenchSheet, model: CircuitModel) -> dict[str, Supplied]:
    """The batteries and days of a bench sheet, as the solver takes them."""
    three: dict[SupplyName, BatteryState] = {
        "weak": sheet.supplies.weak,
        "normal": sheet.supplies.normal,
        "charging": sheet.supplies.charging,
    }
    return {
        name: Supplied(
            _supply(each.battery),
            _supply(each.running),
            inputs_si(model, sheet.days.get(name, {})),
        )
        for name, each in three.items()
    }


def _supply(feed: Feed) -> Supply:
    return Supply(si(feed.emf, Quantity.VOLTAGE), si(feed.internal, Quantity.RESISTANCE))
