"""Which faults each kind of element has, their weights and sizes, and what they do."""

import pytest
from core.circuit.samples import NAMES, circuit_of, every_fault, model_of, sample

from faulttree.core.circuit.cases import Cases
from faulttree.core.circuit.circuit import State
from faulttree.core.circuit.elements import AnyElement
from faulttree.core.circuit.faults import Comes, Severity, faults_of
from faulttree.core.circuit.solve import solve

LAMP = """\
  feed: {kind: wire, between: [plus, lamp-in], resistance: 0.1 ohm%s}
  lamp: {kind: lamp, between: [lamp-in, lamp-out], power: 21 W, part: bulb, words: left lamp}
  ground: {kind: chassis-ground, between: [lamp-out, minus]}
"""


def lamp_faults(entry="", more=""):
    model = model_of("lamp-in lamp-out", LAMP % entry, more=more)
    return {fault.id: fault for fault in faults_of(model)}


def ids(name):
    return {fault.id for fault in faults_of(sample(name).model)}


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("lamp-relay", "battery.flat battery.internal fuse.open fuse.series feed.open feed.series"),
        ("lamp-relay", "feed.short-to-ground feed.short-to-positive feed.leak-to-ground"),
        ("lamp-relay", "switch.main-open switch.main-stuck switch.main-series relay.coil-open"),
        ("lamp-relay", "relay.main-make-open relay.main-make-welded relay.main-make-series"),
        ("lamp-relay", "relay.coil-turns relay.pull-in relay.diode-shorted lamp.open strap.open"),
        ("horn", "link.open horn.open horn.turns horn.hot-open horn-ground.series"),
        ("clutch-unit", "cut-out.open cut-out.stuck cut-out.shifted-up cut-out.shifted-down"),
        (
            "clutch-unit",
            "unit-request.pull-missing unit-request.pin-shorted unit-request.threshold",
        ),
        ("clutch-unit", "driver.dead driver.stuck-on driver.series clutch-diode.shorted"),
        ("blower-pack", "pack.r1-open pack.r2-open pack.thermal-fuse-open motor.open motor.drag"),
        ("blower-pack", "motor.dead-spot motor.seized motor.brushes"),
        ("fuel-gauge", "sender.open sender.shorted sender.high sender.low plug.open plug.series"),
        ("sensor-fan", "sensor.open sensor.shorted sensor.high sensor.low"),
        ("brake-lights", "splice.left-leg-open splice.left-leg-series high-diode.open"),
        ("changeover", "relay.main-break-welded relay.main-break-open"),
        ("lamp-cluster", "shorts.chafed shorts.damp cluster-ground.open strap.series"),
    ],
)
def test_an_element_has_the_faults_of_its_kind(name, expected):
    assert set(expected.split()) <= ids(name)


def test_every_kind_of_element_has_faults_and_a_sample():
    kinds = {kind for model in AnyElement.__args__[0].__args__
             for kind in model.model_fields["kind"].annotation.__args__}  # fmt: skip
    models = [sample(name).model for name in NAMES]
    used = {element.kind for model in models for element in model.elements.values()}
    assert used == kinds
    for model in models:
        assert set(model.elements) == {f.element for f in faults_of(model) if f.element}


def test_a_wire_on_the_reference_or_on_the_battery_has_no_short_to_itself():
    found = lamp_faults()
    assert "feed.short-to-ground" in found
    assert "feed.short-to-positive" not in found


def test_the_document_gives_weights_and_sizes_and_takes_faults_out():
    found = lamp_faults(
        ", faults: {open: {weight: 7}, series: {sizes: [2 ohm, 4 ohm]},"
        " leak-to-ground: {weight: 0}}"
    )
    assert found["feed.open"].weight == 7
    assert found["feed.series"].sizes == (2.0, 4.0)
    assert "feed.leak-to-ground" not in found
    assert found["lamp.open"].part == "bulb"
    assert found["lamp.open"].words == "left lamp: burnt out"


def test_a_fault_may_come_and_go_by_document_or_by_nature():
    entry = ", faults: {open: {intermittent: {trigger: vibration, chance: 25 %}}}"
    assert lamp_faults(entry)["feed.open"].comes == Comes("vibration", 0.25)
    assert lamp_faults()["feed.open"].comes is None
    horn = {f.id: f for f in faults_of(sample("horn").model)}
    assert horn["horn.hot-open"].comes == Comes("temperature", 0.3)


def test_severity_chooses_among_the_sizes_there_are():
    series = lamp_faults(", faults: {series: {sizes: [2 ohm, 4 ohm]}}")["feed.series"]
    chosen = [series.at(severity).edits[0].ohm for severity in Severity]
    assert (chosen[0], chosen[2]) == (2.0, 4.0)
    assert series.sized(0.7).edits[0].ohm == 0.7
    opened = lamp_faults()["feed.open"]
    assert not opened.has_size
    assert opened.at(Severity.MILD) == opened.at(Severity.SEVERE)


def test_two_wires_that_touch_are_a_fault_of_the_document():
    found = lamp_faults(more="shorts:\n  chafed: {between: [lamp-in, lamp-out], weight: 2}\n")
    assert (found["shorts.chafed"].weight, found["shorts.chafed"].element) == (2, "")


def test_a_lost_ground_feeds_back_through_its_neighbours():
    # Both lamps end at one splice; with its ground lost, the tail lamp's current goes on through
    # the filament of the turn lamp and its indicator, which glow.
    cluster = sample("lamp-cluster")
    lost = next(f for f in faults_of(cluster.model) if f.id == "cluster-ground.open").at()
    found = solve(cluster, Cases.every([State()], [(), (lost,)]))
    backwards = found.current("turn-lamp")
    assert abs(backwards[0]) < 1e-3
    assert backwards[1] < -0.05
    assert float(found.voltage("cluster")[1]) > 10.0


def test_faults_can_be_there_together():
    lamp = sample("lamp-relay")
    by_id = {f.id: f.at() for f in faults_of(lamp.model)}
    pair = (
        by_id["feed.short-to-positive"],
        by_id["lamp-feed.leak-to-ground"],
        by_id["lamp-feed.series"],
    )
    alone, together = (
        solve(lamp, Cases.every([State()], [faults])).current("lamp-feed")[0]
        for faults in (pair[:1], pair)
    )
    assert together < alone


def test_every_fault_of_the_samples_has_an_answer_but_two_that_swing_by_nature():
    # A weak battery under a starter: the solenoid pulls, the voltage falls below what holds it, it
    # lets go, and pulls again: it rattles.
    # A body strap of 5 ohm shared by clutch and request line: the clutch lifts the body, the unit
    # takes the request for gone, drops the clutch, and sees it again.
    unstable = set()
    for name in NAMES:
        circuit = sample(name)
        for severity in Severity:
            faults = every_fault(circuit, severity)
            found = solve(circuit, Cases.every([State()], faults))
            unstable |= {(name, faults[i][0].id) for i in (~found.is_stable).nonzero()[0]}
    rattles = ("starter", "battery.internal=0.2")
    assert unstable == {("clutch-unit", "strap.series=5"), rattles}


def test_a_hot_open_coil_is_open_above_its_temperature_only():
    circuit = circuit_of(
        "a",
        "  coil: {kind: coil, between: [plus, a], resistance: 4 ohm, temperature: bay,"
        " opens-above: 90 C}\n"
        "  ground: {kind: wire, between: [a, minus], resistance: 10 mohm}\n",
        "{bay: {quantity: temperature, usual: 60 C}}",
    )
    fault = next(f for f in faults_of(circuit.model) if f.id == "coil.hot-open").at()
    states = [State({"bay": 273.15 + t}) for t in (60, 100)]
    found = solve(circuit, Cases.every(states, [(fault,)])).current("coil")
    assert found[0] == pytest.approx(2.7, abs=0.05)
    assert found[1] == 0.0
