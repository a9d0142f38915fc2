"""The solver against published worked examples and against netlists solved by ngspice."""

import json
import math
from pathlib import Path

import pytest
from core.circuit.samples import reading, solved

from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.circuit.edits import Between, Ohm, Open, Series
from faulttree.core.circuit.probes import Probe, Tool, ohms, volts


def book(emf: float, nodes: str, **resistors: tuple[str, str, float]) -> Circuit:
    """A stiff source between plus and minus, and resistors by their ends."""
    names = {n: {} for n in ("plus", "minus", *nodes.split())}
    elements = {"battery": {"kind": "battery", "plus": "plus", "minus": "minus",
                            "emf": f"{emf!r} V", "internal": "1e-6 ohm"}}  # fmt: skip
    for name, (a, b, ohm) in resistors.items():
        elements[name] = {"kind": "wire", "between": [a, b], "resistance": f"{ohm!r} ohm"}
    head = {"format": "circuit/1", "id": "book", "version": "1.0.0", "title": "Book"}
    data = {**head, "reference": "minus", "nodes": names, "elements": elements}
    return Circuit.from_document(CircuitModel.model_validate(data))


def currents(circuit: Circuit, *edits):
    found = solved(circuit, *edits)
    return {b.name: float(found.current(b.name)[0]) for b in circuit.netlist.branches}


# Source of the following: NEETS module 1, NAVEDTRA 14173 (Sept 1998), chapter 3, figures as named.


def test_three_resistors_in_parallel_fig_3_46():
    circuit = book(
        10, "", a=("plus", "minus", 20), b=("plus", "minus", 30), c=("plus", "minus", 40)
    )
    assert reading(circuit, ohms("plus", "minus"))[0] == pytest.approx(9.23, rel=0.005)


def test_two_resistors_in_parallel_fig_3_47_and_3_45():
    circuit = book(10, "", a=("plus", "minus", 20), b=("plus", "minus", 30))
    assert reading(circuit, ohms("plus", "minus"))[0] == pytest.approx(12, rel=1e-9)
    circuit = book(30, "", a=("plus", "minus", 3), b=("plus", "minus", 6))
    assert reading(circuit, ohms("plus", "minus"))[0] == pytest.approx(2, rel=1e-9)
    assert -currents(circuit)["battery"] == pytest.approx(15, rel=1e-5)


def test_power_in_three_parallel_branches_fig_3_48():
    circuit = book(
        50, "", a=("plus", "minus", 10), b=("plus", "minus", 25), c=("plus", "minus", 50)
    )
    amps = currents(circuit)
    powers = [50 * amps[n] for n in "abc"]
    assert powers == pytest.approx([250, 100, 50], rel=1e-5)
    assert -50 * amps["battery"] == pytest.approx(400, rel=1e-5)


def test_five_resistors_of_which_one_current_is_known_fig_3_50():
    eighteen = ("plus", "minus", 18)
    pair = {"a": ("plus", "minus", 20), "b": ("plus", "minus", 30)}
    circuit = book(180, "", **pair, c=eighteen, d=eighteen, e=eighteen)
    amps = currents(circuit)
    assert (amps["a"], amps["b"], amps["c"]) == pytest.approx((9, 6, 10), rel=1e-4)
    assert -amps["battery"] == pytest.approx(45, rel=1e-4)
    assert reading(circuit, ohms("plus", "minus"))[0] == pytest.approx(4, rel=1e-9)


def test_series_resistor_feeding_two_in_parallel_fig_3_54():
    circuit = book(60, "m", r1=("plus", "m", 8), r2=("m", "minus", 20), r3=("m", "minus", 30))
    amps = currents(circuit)
    found = solved(circuit)
    assert reading(circuit, ohms("plus", "minus"))[0] == pytest.approx(20, rel=1e-9)
    assert (amps["r1"], amps["r2"], amps["r3"]) == pytest.approx((3, 1.8, 1.2), rel=1e-6)
    assert float(found.voltage("m")[0]) == pytest.approx(36, rel=1e-6)


def test_open_branch_and_open_series_part_fig_3_61():
    circuit = book(120, "m", r1=("plus", "m", 20), r2=("m", "minus", 100), r3=("m", "minus", 25))
    assert -currents(circuit)["battery"] == pytest.approx(3, rel=1e-6)
    assert -currents(circuit, Open("r3"))["battery"] == pytest.approx(1, rel=1e-6)
    assert reading(circuit, ohms("plus", "minus"), Open("r3"))[0] == pytest.approx(120, rel=1e-9)
    assert currents(circuit, Open("r1"))["battery"] == 0.0
    assert math.isinf(reading(circuit, ohms("plus", "minus"), Open("r1"))[0])


def test_voltages_along_a_divider_against_two_references_fig_3_63():
    ends = ["minus", "b", "c", "d", "plus"]
    chain = {f"r{i}": (ends[i], ends[i + 1], 50.0) for i in range(4)}
    circuit = book(100, "b c d", **chain)
    found = solved(circuit)
    by_a = [float(found.voltage(n)[0]) for n in ends]
    assert by_a == pytest.approx([0, 25, 50, 75, 100], rel=1e-6)
    by_b = [v - by_a[1] for v in by_a]
    assert by_b == pytest.approx([-25, 0, 25, 50, 75], rel=1e-6)


def test_dividers_with_loads_fig_3_64_to_3_67():
    # Fig. 3-64: 274.73 ohm bleeder, 75 ohm above it, a load of 0.91 A at 25 V.
    circuit = book(100, "m", r2=("plus", "m", 74.93), r1=("m", "minus", 274.73),
                   load=("m", "minus", 25 / 0.91))  # fmt: skip
    assert float(solved(circuit).voltage("m")[0]) == pytest.approx(25, rel=0.005)
    # Fig. 3-65: three loads on 285 V.
    circuit = book(285, "x y z", r4=("plus", "z", 2000), r3=("z", "y", 1000), r2=("y", "x", 4000),
                   r1=("x", "minus", 18000), l1=("x", "minus", 9000), l2=("y", "minus", 15000),
                   l3=("z", "minus", 175 / 0.03))  # fmt: skip
    found = solved(circuit)
    heights = [float(found.voltage(n)[0]) for n in "xyz"]
    assert heights == pytest.approx([90, 150, 175], rel=1e-6)
    assert -currents(circuit)["battery"] == pytest.approx(0.055, rel=1e-6)


def test_unbalanced_bridge_deflects_its_galvanometer():
    # Source: Helfrick and Cooper, Modern Electronic Instrumentation and Measurement Techniques,
    # example 5-1: 2.7732 mV and 733.89 ohm by Thevenin, 3.3256 uA through 100 ohm.
    bridge = {"r1": ("plus", "left", 100.0), "r3": ("plus", "right", 1000.0),
              "r2": ("left", "minus", 200.0), "r4": ("right", "minus", 2005.0)}  # fmt: skip
    open_bridge = book(5, "left right", **bridge)
    found = solved(open_bridge)
    difference = abs(float(found.voltage("left")[0] - found.voltage("right")[0]))
    assert difference == pytest.approx(2.7732e-3, rel=5e-4)
    circuit = book(5, "left right", **bridge, meter=("left", "right", 100.0))
    assert abs(currents(circuit)["meter"]) == pytest.approx(3.3256e-6, rel=5e-4)


def test_a_voltmeter_loads_a_divider():
    # Source: textbook example 3.14 (meter loading), inputs read, value recomputed: 500 ohm/V on
    # 150 V is 75 kohm; 138.889 V unloaded, 120.968 V read.
    divider = {"a": ("plus", "m", 20e3), "b": ("m", "minus", 25e3)}
    circuit = book(250, "m", **divider)
    assert float(solved(circuit).voltage("m")[0]) == pytest.approx(138.889, abs=0.01)
    loaded = solved(circuit, Between("m", "minus", 75e3))
    assert float(loaded.voltage("m")[0]) == pytest.approx(120.968, abs=0.01)


@pytest.mark.parametrize(("emf", "ohm", "shown"), [(12.6, 1e6, 6.0), (5.0, 1e7, 1.666667)])
def test_a_10_megohm_meter_loads_a_high_divider(emf, ohm, shown):
    # Ohm's law: two equal resistors, the lower one with 10 Mohm beside it.
    circuit = book(emf, "m", a=("plus", "m", ohm), b=("m", "minus", ohm))
    assert reading(circuit, volts("m", "minus"))[0] == pytest.approx(shown, abs=1e-5)


# Netlists solved by ngspice.

DATA = json.loads((Path(__file__).parents[2] / "data" / "ngspice-circuits.json").read_text("ascii"))
CASES = [(key, case["id"]) for key in DATA if key != "source" for case in DATA[key]["cases"]]


def _id(node: str) -> str:
    return f"n{node}"


def netlist(key: str) -> Circuit:
    """Sources and the resistors at their plus ends become batteries, the rest plain resistors."""
    elements, merged = {}, set()
    listed = DATA[key]["elements"]
    for source in (e for e in listed if e["kind"] == "voltage_source"):
        inner = next(e for e in listed if e.get("a") == source["plus"])
        merged |= {source["name"], inner["name"]}
        elements[source["name"].lower()] = {
            "kind": "battery", "plus": _id(inner["b"]), "minus": _id(source["minus"]),
            "emf": f"{source['volts']} V", "internal": f"{inner['ohms']} ohm",
        }  # fmt: skip
    for e in listed:
        if e["name"] not in merged and e["kind"] == "resistor":
            ends = [_id(e["a"]), _id(e["b"])]
            wire = {"kind": "wire", "between": ends, "resistance": f"{e['ohms']!r} ohm"}
            elements[e["name"].lower()] = wire
    nodes = {
        n for e in elements.values() for n in e.get("between", [e.get("plus"), e.get("minus")])
    }
    nodes |= {_id(e[k]) for e in listed if e["kind"] == "open_switch" for k in "ab"}
    data = {"format": "circuit/1", "id": key.lower(), "version": "1.0.0", "title": key,
            "reference": "n0", "nodes": {n: {} for n in nodes}, "elements": elements}  # fmt: skip
    return Circuit.from_document(CircuitModel.model_validate(data))


def edits(key: str, faults):
    by_name = {e["name"]: e for e in DATA[key]["elements"]}
    for fault in faults:
        name = fault.get("element", "").lower()
        if fault["type"] == "open":
            yield Open(name)
        elif fault["type"] == "added_series_resistance":
            yield Series(name, fault["ohms"])
        elif fault["type"] == "value":
            yield Ohm(name, fault["ohms"])
        else:
            ends = fault if fault["type"] == "shunt" else by_name[fault["element"]]
            yield Between(_id(ends["a"]), _id(ends["b"]), fault["ohms"])


def _same(value):
    return pytest.approx(value, rel=1e-6, abs=1e-6)


@pytest.mark.parametrize(("key", "case_id"), CASES, ids=[c for _, c in CASES])
def test_netlists_read_what_ngspice_reads(key, case_id):
    circuit = netlist(key)
    case = next(c for c in DATA[key]["cases"] if c["id"] == case_id)
    faults = tuple(edits(key, case["faults"]))
    found = solved(circuit, *faults)
    for node, value in case["node_voltages"].items():
        if (
            _id(node) in circuit.model.nodes
            and value is not None
            and not found.floats(_id(node))[0]
        ):
            assert float(found.voltage(_id(node))[0]) == _same(value), node
    for each in case["dmm"]:
        probe = volts(_id(each["plus"]), _id(each["minus"]))
        assert reading(circuit, probe, *faults)[0] == _same(each["reading_V"]), each
    for each in case["test_light"]:
        ends = _id(each["plus"]), _id(each["minus"])
        lit = solved(circuit, *faults, Between(*ends, each["lamp_ohms"]))
        assert float(lit.voltage(ends[0])[0] - lit.voltage(ends[1])[0]) == _same(each["lamp_V"])
    for each in case["ohmmeter"]:
        probe = Probe(Tool.OHMMETER, _id(each["plus"]), _id(each["minus"]))
        expected = math.inf if each["ohms"] == "OL" else each["ohms"]
        assert reading(circuit, probe, *faults)[0] == _same(expected), each
