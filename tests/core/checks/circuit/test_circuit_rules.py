"""Each rule for circuit models by a change to a sound model that breaks it and nothing else."""

import sys
from pathlib import Path

import pytest

from faulttree.core.checks.circuit import RULES, paths
from faulttree.files.documents import DocumentError, check_bytes, circuit_from_bytes

FOLDER = Path(__file__).parents[3] / "data" / "circuits"

CASES = [
    # check, sample, text, text in its place, the value or key found
    ("unknown-node", "lamp-relay",
     "between: [lamp-in, lamp-out]",
     "between: [lamp-on, lamp-out]", "lamp-on"),
    ("unknown-node", "lamp-relay",
     "reference: battery-negative",
     "reference: battery-ngative", "battery-ngative"),
    ("unknown-node", "lamp-cluster",
     "between: [tail-in, brake-in]",
     "between: [tail-in, brake-on]", "brake-on"),
    ("unknown-node", "clutch-unit",
     "node: fuse-out",
     "node: fuse-ot", "fuse-ot"),
    ("same-node", "lamp-cluster",
     "between: [tail-in, brake-in]",
     "between: [tail-in, tail-in]", "[tail-in, tail-in]"),
    ("dangling-node", "lamp-relay",
     "  body: {words",
     "  spare: {}\n  body: {words", "spare"),
    ("circuit-apart", "lamp-relay",
     "between: [lamp-out, body], length",
     "between: [x1, x2], length", None),
    ("unknown-input", "lamp-relay",
     "follows: light",
     "follows: lihgt", "lihgt"),
    ("unknown-input", "clutch-unit",
     "follows: low-side",
     "follows: engine-bay", "engine-bay"),
    ("unknown-input", "clutch-unit",
     "follows: request",
     "follows: low-side", "low-side"),
    ("unknown-input", "clutch-unit",
     "{input: engine, is: [idle]}, {node",
     "{input: engin, is: [idle]}, {node", "engin"),
    ("unknown-state", "lamp-relay",
     'closed: ["on"]',
     'closed: ["up"]', '"up"'),
    ("unknown-state", "lamp-relay",
     'usual: "on"',
     'usual: "up"', '"up"'),
    ("unknown-state", "clutch-unit",
     "powered: [{input: key, is: [run]}]",
     "powered: [{input: key, is: [rn]}]", "rn"),
    ("unknown-reading", "clutch-unit",
     "reads: unit-request",
     "reads: unit-reqest", "unit-reqest"),
    ("condition-kind", "clutch-unit",
     "powered: [{input: key, is: [run]}]",
     "powered: [{node: key-15, from: 9 V}]", "{node: key-15, from: 9 V}"),
    ("circuit-amount", "lamp-relay",
     "power: 21 W",
     "power: 21 V", "21 V"),
    ("circuit-amount", "lamp-relay",
     "area: 1.5 mm2",
     "area: 1.5 mm", "1.5 mm"),
    ("circuit-amount", "lamp-relay",
     "length: 2 m,",
     "length: 0 m,", "0 m"),
    ("circuit-amount", "clutch-unit",
     "temperature: engine-bay, opens",
     "temperature: engine-bey, opens", "engine-bey"),
    ("circuit-amount", "clutch-unit",
     "opens: 140 kPa",
     "opens: 140 ohm", "140 ohm"),
    ("circuit-amount", "clutch-unit",
     "from: 13.5 V",
     "from: 13.5 A", "13.5 A"),
    ("circuit-amount", "clutch-unit",
     "usual: 300 kPa",
     "usual: 300 mm", "300 mm"),
    ("ideal-source", "starter",
     "internal: 8 mohm",
     "internal: 0 ohm", "0 ohm"),
    ("curve-order", "fuel-gauge",
     "{at: 50 %, is: 90 ohm}",
     "{at: 0 %, is: 90 ohm}", "0 %"),
    ("circuit-threshold", "starter",
     "drop-out: 2 V",
     "drop-out: 8 V", "8 V"),
    ("circuit-threshold", "sensor-fan",
     "low-below: 2.2 V",
     "low-below: 3 V", "3 V"),
    ("circuit-threshold", "thermo-fan",
     "closes: 93 C",
     "closes: 87 C", "87 C"),
    ("circuit-threshold", "thermo-fan",
     "winding: 0.35 ohm",
     "winding: 3.5 ohm", "3.5 ohm"),
    ("unknown-fault", "starter",
     "faults: {series: {sizes: [2 mohm, 8 mohm, 30 mohm]}, short",
     "faults: {serie: {weight: 1}, short", "serie"),
    ("fault-size", "starter",
     "short-to-ground: {weight: 0.1}",
     "short-to-ground: {sizes: [1 ohm]}", "sizes"),
    ("fault-size", "lamp-cluster",
     "sizes: [5 kohm, 1 kohm, 100 ohm]",
     "sizes: [5 kohm, 1 V, 100 ohm]", "1 V"),
    ("fault-size", "../loop/car",
     "closes: 1900 kPa",
     "closes: 1900 kPa\n    faults: {shifted-down: {sizes: [1.5]}}", "1.5"),
    ("unknown-input", "../loop/car",
     "draught: {follows: engine",
     "draught: {follows: engin", "engin"),
    ("unknown-input", "../loop/car",
     "door: {follows: lever",
     "door: {follows: coolant", "coolant"),
    ("unknown-state", "../loop/car",
     "{idle: 1000 rpm, driving",
     "{idling: 1000 rpm, driving", "idling"),
    ("circuit-amount", "../loop/car",
     "charge: 800 g",
     "charge: 800 V", "800 V"),
    ("circuit-amount", "../loop/car",
     "ambient: ambient",
     "ambient: humidity", "humidity"),
    ("circuit-amount", "../loop/car",
     "fin-temperature, opens: 1 C",
     "fin-temperature, opens: 165 kPa", "165 kPa"),
    ("loop-part", "../loop/car",
     "fan: {motor: condenser-fan",
     "fan: {motor: fan-eyelet", "fan-eyelet"),
    ("loop-part", "../loop/car",
     "clutch: {current: clutch-coil",
     "clutch: {current: clutch-col", "clutch-col"),
    ("loop-part", "../loop/car",
     "fin-temperature, opens: 1 C",
     "fin-temperature, opens: 6 C", "6 C"),
    ("loop-part", "../loop/car",
     "  coolant: {quantity",
     "  vent: {quantity: temperature, usual: 3 C}\n  coolant: {quantity", "vent"),
    ("unknown-fault", "../loop/car",
     "door-stuck: {weight: 2}",
     "dor-stuck: {weight: 2}", "dor-stuck"),
    ("fault-size", "../loop/car",
     "door-stuck: {weight: 2}",
     "wrong-refrigerant: {sizes: [50 %]}", "sizes"),
    ("loop-limit", "../loop/car",
     "charge: 800 g",
     "charge: 8 kg", "8 kg"),
    ("loop-limit", "../loop/car",
     "humidity: humidity\n",
     "humidity: humidity\n  altitude: 6000 m\n", "6000 m"),
    ("loop-limit", "../loop/car",
     "humidity: humidity\n",
     "humidity: 120 %\n", "120 %"),
    ("loop-limit", "../loop/car",
     "cold: 0 %",
     "cold: 110 %", "110 %"),
    ("loop-limit", "../loop/car",
     "ambient: ambient",
     "ambient: vent", "vent"),
    ("loop-limit", "../loop/car",
     "sizes: [50 %, 70 %]",
     "sizes: [50 %, 120 %]", "120 %"),
    ("loop-limit", "../loop/car",
     "wrong-refrigerant: R-12",
     "wrong-refrigerant: R-134a", "R-134a"),
]  # fmt: skip


def _text(name, old, new):
    text = (FOLDER / f"{name}.yaml").read_text("utf-8")
    assert text.count(old) == 1, (name, old, text.count(old))
    if new == "between: [x1, x2], length":  # a loop of two wires that joins nothing
        more = "  loop: {kind: wire, between: [x1, x2], resistance: 1 ohm}\n"
        text = text.replace("elements:\n", f"  x1: {{}}\n  x2: {{}}\nelements:\n{more}")
        return text + "  loop-b: {kind: wire, between: [x1, x2], resistance: 1 ohm}\n"
    return text.replace(old, new)


@pytest.mark.parametrize("case", CASES, ids=lambda c: f"{c[0]}: {c[3][:40]}")
def test_a_broken_model_is_found_broken_once_and_in_its_place(case):
    check, name, old, new, found = case
    report = check_bytes(_text(name, old, new).encode(), f"{name}.yaml")
    assert [p.check for p in report.problems] == [check]
    problem = report.problems[0]
    line = report.text.split("\n")[problem.line - 1]
    assert problem.severity == "error"
    assert problem.help, "says how to mend it"
    if found:
        assert line[problem.column - 1 :].startswith(found)


@pytest.mark.parametrize("name", [*(path.stem for path in FOLDER.glob("*.yaml")), "../loop/car"])
def test_the_sample_circuits_have_no_finding(name):
    assert check_bytes((FOLDER / f"{name}.yaml").read_bytes(), name).problems == ()


@pytest.mark.parametrize("rule", [*RULES, paths.check], ids=lambda rule: rule.__module__)
def test_every_check_that_a_rule_names_in_its_first_line_has_a_case(rule):
    first_line = str(sys.modules[rule.__module__].__doc__).split("\n")[0]
    assert set(first_line.partition(":")[0].split(", ")) <= {case[0] for case in CASES}


def test_a_kind_that_is_none_is_told_with_the_kinds_there_are():
    report = check_bytes(_text("lamp-relay", "kind: lamp,", "kind: bulb,").encode(), "x")
    (problem,) = report.problems
    assert problem.message == "bulb is not a kind of element"
    assert "battery, fuse, fusible-link, wire" in problem.help


def test_a_part_that_is_missing_or_unknown_is_told_in_its_place():
    report = check_bytes(_text("lamp-relay", "area: 1.5 mm2", "aera: 1.5 mm2").encode(), "x")
    assert report.problems[0].help == "Did you mean area?"
    report = check_bytes(_text("lamp-relay", ", area: 1.5 mm2", "").encode(), "x")
    assert "needs length and area, or resistance" in report.problems[0].message


def test_a_model_with_errors_is_not_loaded():
    with pytest.raises(DocumentError):
        circuit_from_bytes(_text("lamp-relay", "power: 21 W", "power: 21 V").encode(), "x")
