"""How long a circuit takes to solve and to read, against a bare solve and against ngspice."""

import shutil
import subprocess
import tempfile
from collections.abc import Callable
from pathlib import Path
from time import perf_counter
from typing import Any

from .rows import Row, Sample, in_turn, ratio

_BRANCHES = 3
"""Fused circuits of the model, each with nine nodes; with battery, box and reference 30 in all."""
_NGSPICE_FAULTS = 20
"""Faults that ngspice is started for; its time is taken per fault."""


def rows(rounds: int) -> list[Row]:
    """All single faults of a circuit of 30 nodes, and readings with the instrument in it."""
    from faulttree.core.circuit.circuit import Circuit
    from faulttree.core.circuit.document import CircuitModel

    circuit = Circuit.from_document(CircuitModel.model_validate(_model()))
    ngspice = shutil.which("ngspice")
    found = [_against_bare_solve(circuit, rounds), _readings(circuit, rounds)]
    return [*found, _against_ngspice(circuit, ngspice, rounds)] if ngspice else found


def _cases(circuit: Any) -> Any:
    """Every fault at every severity, in two states of the key and on three batteries."""
    from faulttree.core.circuit.cases import Cases
    from faulttree.core.circuit.circuit import State, Supply
    from faulttree.core.circuit.faults import Severity, faults_of

    faults = [
        (fault.at(severity),)
        for fault in faults_of(circuit.model)
        for severity in (Severity if fault.has_size else (Severity.TYPICAL,))
    ]
    supplies = [Supply(volts, 0.01) for volts in (11.8, 12.6, 14.2)]
    states = [State({"key": key}, supply=s) for key in ("off", "run") for s in supplies]
    return Cases.every(states, [(), *faults])


def _against_bare_solve(circuit: Any, rounds: int) -> Row:
    """The bare solve is handed every matrix that was solved, all rounds of the relays included."""
    import numpy as np

    from faulttree.core.circuit.solve import solve

    cases = _cases(circuit)
    matrices = _recorded(lambda: solve(circuit, cases))
    bare, ours = in_turn(
        rounds,
        _timed(lambda: [np.linalg.solve(matrix, current) for matrix, current in matrices]),
        _timed(lambda: solve(circuit, cases)),
    )
    what = f"circuit, {len(circuit.netlist.nodes)} nodes, {len(cases):,} cases of single faults"
    return ratio(what, "bare numpy solve", ours, bare, 2.0)


def _recorded(work: Callable[[], Any]) -> list[tuple[Any, Any]]:
    import numpy as np

    solved: list[tuple[Any, Any]] = []
    real = np.linalg.solve

    def recording(matrix: Any, current: Any) -> Any:
        solved.append((matrix.copy(), current.copy()))
        return real(matrix, current)

    np.linalg.solve = recording  # type: ignore[assignment]
    try:
        work()
    finally:
        np.linalg.solve = real
    return solved


def _readings(circuit: Any, rounds: int) -> Row:
    """Every node against the reference with a 10 Mohm meter, under every fault."""
    from faulttree.core.circuit.probes import volts
    from faulttree.core.circuit.readings import read
    from faulttree.core.circuit.solve import solve

    cases = _cases(circuit)
    reference = circuit.model.reference
    probes = [volts(node, reference) for node in circuit.model.nodes if node != reference]
    solved = solve(circuit, cases)
    (seconds,) = in_turn(min(rounds, 5), _timed(lambda: read(circuit, cases, probes, solved)))
    count = len(cases) * len(probes)
    detail = f"{count:,} in {seconds:.2f} s"
    what = "exact readings, instrument as an element"
    return Row(what, "", count / seconds, 40_000, "per s", detail, more_is_better=True)


def _against_ngspice(circuit: Any, ngspice: str, rounds: int) -> Row:
    """One process for each fault, on a deck of the same size; relays are drawn as resistors."""
    from faulttree.core.circuit.solve import solve

    cases = _cases(circuit)
    with tempfile.TemporaryDirectory(prefix="faulttree-ngspice-") as folder:
        deck = Path(folder) / "circuit.cir"
        deck.write_text(_deck(circuit), "ascii")
        theirs, ours = in_turn(
            min(rounds, 5),
            _timed(lambda: [_run(ngspice, deck) for _ in range(_NGSPICE_FAULTS)]),
            _timed(lambda: solve(circuit, cases)),
        )
    each, our_each = theirs / _NGSPICE_FAULTS, ours / len(cases)
    detail = f"{each * 1e3:.1f} ms / {our_each * 1e6:.1f} us a case"
    what = "same, times faster"
    return Row(what, "ngspice, a process each", each / our_each, 200, "x", detail, True)


def _deck(circuit: Any) -> str:
    from faulttree.core.circuit.circuit import State

    car, last = circuit.car(State()), len(circuit.netlist.nodes) - 1
    lines = ["* circuit"]
    for index, branch in enumerate(circuit.netlist.branches):
        a, b = ("0" if node == last else f"n{node}" for node in (branch.a, branch.b))
        terms = branch.terms(car, {})
        if terms.emf:
            lines.append(f"V{index} s{index} {b} {terms.emf}")
            lines.append(f"R{index} s{index} {a} {terms.ohm}")
        else:
            lines.append(f"R{index} {a} {b} {terms.ohm}")
    return "\n".join([*lines, ".op", ".end", ""])


def _run(ngspice: str, deck: Path) -> None:
    subprocess.run([ngspice, "-b", deck.name], cwd=deck.parent, check=True, capture_output=True)


def _timed(work: Callable[[], Any]) -> Sample:
    def sample() -> float:
        began = perf_counter()
        work()
        return perf_counter() - began

    return sample


def _model() -> dict[str, Any]:
    """Three heaters, each switched by a relay behind a fuse, with joints, wires and a ground."""
    nodes = ["minus", "plus", "box"]
    elements: dict[str, Any] = {
        "battery": {"kind": "battery", "plus": "plus", "minus": "minus"},
        "main": _pair("fusible-link", "plus", "box", rating="80 A", resistance="2 mohm"),
    }
    for n in range(_BRANCHES):
        nodes += [f"{name}{n}" for name in ("f", "s", "k86", "k87", "p", "l", "o", "j", "b")]
        elements |= {
            f"fuse{n}": _pair("fuse", "box", f"f{n}", rating="15 A"),
            f"feed{n}": _wire(f"f{n}", f"s{n}"),
            f"switch{n}": {
                "kind": "switch",
                "follows": "key",
                "contacts": {"main": {"between": [f"s{n}", f"k86{n}"], "closed": ["run"]}},
            },
            f"relay{n}": {
                "kind": "relay",
                "coil": {"between": [f"k86{n}", f"j{n}"], "resistance": "90 ohm"},
                "contacts": {"main": {"common": f"f{n}", "make": f"k87{n}"}},
            },
            f"wire{n}": _wire(f"k87{n}", f"p{n}"),
            f"joint{n}": _pair("contact", f"p{n}", f"l{n}"),
            f"heater{n}": _pair("heater", f"l{n}", f"o{n}", resistance="3 ohm"),
            f"return{n}": _wire(f"o{n}", f"j{n}"),
            f"ground{n}": _wire(f"j{n}", f"b{n}"),
            f"strap{n}": _pair("chassis-ground", f"b{n}", "minus"),
        }
    return {
        "format": "circuit/1",
        "id": "benchmark",
        "version": "1.0.0",
        "title": "Benchmark",
        "inputs": {"key": {"states": ["off", "run"], "usual": "run"}},
        "reference": "minus",
        "nodes": {node: {} for node in nodes},
        "elements": elements,
    }


def _pair(kind: str, a: str, b: str, **more: str) -> dict[str, Any]:
    return {"kind": kind, "between": [a, b], **more}


def _wire(a: str, b: str) -> dict[str, Any]:
    return _pair("wire", a, b, length="2 m", area="1.5 mm2")
