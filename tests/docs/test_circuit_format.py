"""docs/circuit-format.md: its example is sound, its numbers the solver's, no kind is left out."""

import re
from pathlib import Path

import pytest

from faulttree.core.circuit.cases import Cases
from faulttree.core.circuit.circuit import Circuit, State
from faulttree.core.circuit.elements import AnyElement
from faulttree.core.circuit.faults import faults_of
from faulttree.core.circuit.probes import Probe, Tool, volts
from faulttree.core.circuit.readings import read
from faulttree.files.documents import circuit_from_bytes

PAGE = (Path(__file__).parents[2] / "docs" / "circuit-format.md").read_text("utf-8")
EXAMPLE = re.findall(r"^```yaml\n(.*?)^```", PAGE, re.DOTALL | re.MULTILINE)[0]
ROWS = re.findall(
    r"^\| (none|[\d.]+ ohm) \| ([\d.]+) V \| ([\d.]+) V \| ([\d.]+) V \| (\d+) % \|$", PAGE, re.M
)
OUT = State(removed=("lamp",))


@pytest.fixture(scope="module")
def circuit() -> Circuit:
    return Circuit.from_document(circuit_from_bytes(EXAMPLE.encode(), "example").document)


def test_the_table_has_its_four_rows():
    assert len(ROWS) == 4


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[0])
def test_the_numbers_of_the_trap_are_the_solver_s(circuit, row):
    joint, *printed = row
    series = next(f for f in faults_of(circuit.model) if f.id == "plug.series")
    faults = () if joint == "none" else (series.sized(float(joint.split()[0])),)
    out, in_place = (Cases.every([state], [faults]) for state in (OUT, State()))
    feed = volts("lamp-in", "battery-negative")
    light = Probe(Tool.TEST_LIGHT, "lamp-in", "battery-negative")
    found = [
        read(circuit, out, [feed]).values[0, 0],
        read(circuit, in_place, [feed]).values[0, 0],
        read(circuit, out, [light]).values[0, 0],
    ]
    assert [f"{value:.2f}" for value in found] == printed[:3]
    across = read(circuit, in_place, [volts("lamp-in", "lamp-out")]).values[0, 0]
    assert f"{100 * (across / 12) ** 3.4:.0f}" == printed[3]


def test_every_kind_of_element_and_every_key_is_described():
    for model in AnyElement.__args__[0].__args__:
        for kind in model.model_fields["kind"].annotation.__args__:
            assert f"`{kind}`" in PAGE, kind
        own = set(model.model_fields) - {"words", "part", "faults", "kind", "between"}
        for key in (model.model_fields[name].alias for name in own):
            assert f"`{key}`" in PAGE, key


def test_every_fault_of_the_example_is_in_the_table():
    text = PAGE[PAGE.index("## Faults") :]
    for fault in faults_of(circuit_from_bytes(EXAMPLE.encode(), "example").document):
        name = fault.id.partition(".")[2].replace("main", "CONTACT")
        assert name in text, name
