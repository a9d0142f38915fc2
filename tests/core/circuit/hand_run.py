"""The same circuits by ngspice: written out by formulas of their own, relays worked by hand.

Each case is a deck of resistors, sources and current laws without memory. Relays, drivers and fuses
are decided here from the voltages ngspice gives, and the deck is run again until nothing moves.
"""

import math
import re
import shutil
import subprocess
from dataclasses import dataclass, field
from pathlib import Path

from core.circuit.hand_parts import HandParts, Part

from faulttree.core.circuit import elements as el
from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.conditions import Condition
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.edits import (
    Between,
    Change,
    Edit,
    Ohm,
    Open,
    Series,
    Stuck,
    Threshold,
)
from faulttree.core.units import Quantity

NGSPICE = shutil.which("ngspice")
OPTIONS = ".options reltol=1e-6 abstol=1e-9 vntol=1e-7 gmin=1e-12 rshunt=1e12 itl1=500"


@dataclass
class Hand(HandParts):
    """One case on its way to a steady state."""

    model: CircuitModel
    inputs: dict[str, str | float]
    edits: tuple[Edit, ...]
    load: tuple[str, str, str] | None = None
    """Law of the instrument and the nodes of its leads."""
    on: dict[str, bool] = field(default_factory=dict)
    blown: set[str] = field(default_factory=set)
    volts: dict[str, float] = field(default_factory=dict)
    rounds: int = 0
    is_done: bool = False

    def __post_init__(self) -> None:
        self.set = {
            n: self.inputs.get(n, i.usual.text if i.states else si(i.usual, i.quantity))
            for n, i in self.model.inputs.items()
        }
        self.parts = [p for n, e in self.model.elements.items() for p in self.parts_of(n, e)]
        for edit in self.edits:
            self._apply(edit)
        if self.load:
            self.parts.append(_instrument(*self.load))
        for name, element in self.model.elements.items():
            if isinstance(element, el.Relay):
                self.on.setdefault(f"{name}.coil", False)
            elif isinstance(element, el.ControlInput):
                self.on.setdefault(name, True)
            elif isinstance(element, el.ControlOutput):
                self.on.setdefault(name, False)

    def deck(self) -> str:
        lines = [f"* {self.model.id}"]
        for index, part in enumerate(self.parts):
            if self._is_closed(part):
                lines += _lines(index, part, self._node)
        return "\n".join([*lines, OPTIONS, ".end", ""])

    def take(self, volts: dict[str, float]) -> None:
        """Move what the voltages move."""
        self.volts = {n: volts.get(self._node(n), 0.0) for n in self.model.nodes}
        self.rounds += 1
        after = self._controls()
        if after == self.on:
            worst = max(self._loads(), default=(0.0, ""))
            if worst[0] <= 1.0:
                self.is_done = True
            else:
                self.blown.add(worst[1])
        elif self.rounds > 6:
            first = next(n for n in self.on if after[n] != self.on[n])
            self.on = {**self.on, first: after[first]}
        else:
            self.on = after

    def _node(self, name: str) -> str:
        if name == self.model.reference:
            return "0"
        return "n_" + re.sub(r"\W", "_", name)

    def _is_closed(self, part: Part) -> bool:
        if part.name in self.blown or math.isinf(part.ohm):
            return False
        return not part.relay or self.on[part.relay] == part.works_on

    def _loads(self):
        for part in self.parts:
            if self._is_closed(part) and math.isfinite(part.limit_a):
                drop = abs(self.volts[part.a] - self.volts[part.b])
                yield drop / part.ohm / part.limit_a, part.name

    def _controls(self) -> dict[str, bool]:
        after = dict(self.on)
        for name, element in self.model.elements.items():
            factor = math.prod(
                e.factor for e in self.edits
                if isinstance(e, Threshold) and e.control in (name, f"{name}.coil")
            )  # fmt: skip
            if isinstance(element, el.Relay):
                coil = next(p for p in self.parts if p.name == f"{name}.coil")
                v = abs(self.volts[coil.a] - self.volts[coil.b]) if self._is_closed(coil) else 0.0
                pull, drop = (
                    si(element.coil.pull_in, Quantity.VOLTAGE),
                    si(element.coil.drop_out, Quantity.VOLTAGE),
                )
                was = self.on[f"{name}.coil"]
                after[f"{name}.coil"] = v >= pull * factor or (was and v > drop * factor)
            elif isinstance(element, el.ControlInput):
                v = self.volts[element.pin] - self.volts[element.ground]
                low, high = (
                    si(element.low_below, Quantity.VOLTAGE),
                    si(element.high_from, Quantity.VOLTAGE),
                )
                after[name] = v >= high * factor or (self.on[name] and v >= low * factor)
        for name, element in self.model.elements.items():
            if isinstance(element, el.ControlOutput):
                after[name] = all(self._holds(c, after) for c in element.drives_when)
        return after

    def _holds(self, c: Condition, on: dict[str, bool] | None = None) -> bool:
        if c.any:
            return any(self._holds(inner, on) for inner in c.any)
        if c.reads:
            return on[c.reads] == (c.is_ == ("high",))
        if c.node:
            v = self.volts[c.node] - self.volts[c.against or self.model.reference]
            low = si(c.from_, Quantity.VOLTAGE) if c.from_ else -math.inf
            return low <= v < (si(c.below, Quantity.VOLTAGE) if c.below else math.inf)
        return self.set[c.input] in c.is_

    def _apply(self, edit: Edit) -> None:
        if isinstance(edit, Change | Threshold):
            return
        if isinstance(edit, Between):
            self.parts.append(Part("path", edit.a, edit.b, "resistor", edit.ohm))
            return
        part = next(p for p in self.parts if p.name == edit.branch)
        if isinstance(edit, Open):
            part.ohm = math.inf
        elif isinstance(edit, Series):
            part.ohm += edit.ohm
        elif isinstance(edit, Ohm):
            part.ohm, part.law = edit.ohm, "source" if part.law == "source" else "resistor"
        else:
            assert isinstance(edit, Stuck)
            part.relay = ""


def _instrument(tool: str, plus: str, minus: str) -> Part:
    if tool == "test-light":
        return Part("instrument", plus, minus, "lamp", 6.0, 12.0, (48.0,))
    return Part("instrument", plus, minus, "resistor", 10e6)


def _lines(index: int, p: Part, node) -> list[str]:
    a, b = node(p.a), node(p.b)
    v = f"V({a},{b})"
    if p.law == "resistor":
        return [f"R{index} {a} {b} {p.ohm!r}"]
    if p.law == "source":
        return [f"V{index} s{index} {b} {p.emf!r}", f"R{index} s{index} {a} {p.ohm!r}"]
    if p.law == "diode":
        return [f"B{index} {a} {b} I = ({v} > {p.emf} ? ({v} - {p.emf})/{p.ohm!r} : 0)"]
    if p.law == "lamp":
        hot = p.more[0]
        knee = p.emf * (p.ohm / hot) ** (1 / 0.45)
        law = f"sgn({v})*{p.emf / hot!r}*(max(abs({v}),{knee!r})/{p.emf!r})^0.55"
        return [f"B{index} {a} {b} I = (abs({v}) < {knee!r} ? {v}/{p.ohm!r} : {law})"]
    f, c, k = p.more
    u = f"max(abs({v})-{p.ohm * f!r},0)"
    e = f"(2*{u}/({1 + p.ohm * c!r}+sqrt({(1 + p.ohm * c) ** 2!r}+{4 * p.ohm * k!r}*{u})))"
    law = f"sgn({v})*({f!r}+{c!r}*{e}+{k!r}*{e}*{e})"
    return [f"B{index} {a} {b} I = (abs({v}) < {p.ohm * f!r} ? {v}/{p.ohm!r} : {law})"]


def run(hands: list[Hand], folder: Path, most_rounds: int = 25) -> None:
    """Bring every case to its steady state, all decks of a round in one ngspice process."""
    for _ in range(most_rounds):
        pending = [h for h in hands if not h.is_done]
        if not pending:
            return
        for hand, volts in zip(pending, _ngspice([h.deck() for h in pending], folder), strict=True):
            hand.take(volts)


def _ngspice(decks: list[str], folder: Path) -> list[dict[str, float]]:
    script = ["* run", ".control", "set numdgt=14"]
    for index, deck in enumerate(decks):
        (folder / f"d{index}.cir").write_text(deck, "ascii")
        script += [f"source d{index}.cir", "op", f"echo @@ {index}", "print all", "remcirc"]
    (folder / "run.sp").write_text("\n".join([*script, "quit", ".endc", ""]), "ascii")
    done = subprocess.run([NGSPICE, "-b", "run.sp"], cwd=folder, capture_output=True, text=True,
                          timeout=60, stdin=subprocess.DEVNULL)  # fmt: skip
    blocks = re.split(r"^@@ (\d+)$", done.stdout, flags=re.MULTILINE)
    found = {int(n): _values(text) for n, text in zip(blocks[1::2], blocks[2::2], strict=True)}
    failed = [decks[i] for i in range(len(decks)) if not found.get(i)]
    assert not failed, f"ngspice found no solution of:\n{failed[0]}\n{done.stderr[-2000:]}"
    return [found[i] for i in range(len(decks))]


def _values(text: str) -> dict[str, float]:
    pairs = re.findall(r"^(n_\w+) = (\S+)$", text, re.MULTILINE)
    return {name: float(value) for name, value in pairs}
