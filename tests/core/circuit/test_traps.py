"""Shortcuts that give wrong answers, and readings that mislead: each by its number."""

import math

import numpy as np
import pytest
from core.circuit.samples import cases, circuit_of, reading, solved

from faulttree.core.circuit.edits import Between, Open, Series
from faulttree.core.circuit.probes import Probe, Tool, volts
from faulttree.core.circuit.readings import Flag, read

LAMP = """\
  feed: {kind: wire, between: [plus, lamp-in], resistance: 0.1 ohm}
  lamp: {kind: heater, between: [lamp-in, lamp-out], resistance: 6.857 ohm}
  ground: {kind: wire, between: [lamp-out, minus], resistance: 0.02 ohm}
"""


def test_when_the_only_path_opens_nothing_is_left_behind_it():
    circuit = circuit_of("lamp-in lamp-out", LAMP)
    found = solved(circuit, Open("feed"))
    assert float(found.voltage("lamp-in")[0]) == 0.0
    assert float(found.current("lamp")[0]) == 0.0
    assert reading(circuit, volts("plus", "lamp-in"), Open("feed"))[0] == pytest.approx(
        12.6, abs=1e-4
    )


def test_an_led_with_an_open_ground_reads_battery_less_its_forward_voltage():
    # The meter itself completes the circuit: 12.6 V - 1.9 V, less 1.07 uA in 680 ohm.
    circuit = circuit_of(
        "led-out",
        "  light: {kind: led, between: [plus, led-out], forward: 1.9 V}\n"
        "  ground: {kind: wire, between: [led-out, minus], resistance: 0.05 ohm}\n",
    )
    shown, flags = reading(circuit, volts("led-out", "minus"), Open("ground"))
    assert shown == pytest.approx(10.6993, abs=1e-4)
    assert not flags & Flag.FLOATING


def test_a_cluster_of_open_nodes_reads_nothing_and_draws_nothing():
    # A tie to ground at each node would make the cluster look like a path: 1 V and more.
    nodes = "a b c d e f g h"
    names = nodes.split()
    wires = "".join(
        f"  w{i}: {{kind: wire, between: [{x}, {y}], resistance: 0.01 ohm}}\n"
        for i, (x, y) in enumerate(zip(["plus", *names], [*names, "minus"], strict=True))
    )
    circuit = circuit_of(nodes, wires)
    edits = Open("w0"), Open("w8")
    for node in names:
        shown, flags = reading(circuit, volts("plus", node), *edits)
        assert (shown, flags) == (0.0, Flag.FLOATING)
        shown, flags = reading(circuit, volts(node, "minus"), *edits)
        assert (shown, flags) == (0.0, Flag.FLOATING)


def test_a_battery_off_both_straps_keeps_its_own_voltage():
    circuit = circuit_of(
        "post body far",
        "  strap: {kind: wire, between: [minus, body], resistance: 1 mohm}\n"
        "  feed: {kind: wire, between: [plus, post], resistance: 1 mohm}\n"
        "  load: {kind: heater, between: [post, body], resistance: 2 ohm}\n"
        "  other: {kind: battery, plus: far, minus: body, emf: 9 V}\n"
        "  other-load: {kind: heater, between: [far, body], resistance: 1 ohm}\n",
    )
    found = solved(circuit, Open("strap"), Open("feed"))
    assert found.floats("far")[0]
    assert not found.floats("plus")[0]
    inside = float(found.voltage("far")[0] - found.voltage("body")[0])
    assert inside == pytest.approx(9 / 1.01, abs=1e-9)
    assert reading(circuit, volts("far", "body"), Open("strap"), Open("feed"))[0] == pytest.approx(
        9 / 1.01, abs=1e-6
    )


@pytest.mark.parametrize(
    ("ohm", "meter", "lamp_21_w"),
    [(1.0, 12.60, 11.06), (5.0, 12.60, 7.44), (100.0, 12.60, 0.85), (1e6, 11.45, 0.0)],
)
def test_a_bad_joint_hides_from_a_meter_and_shows_in_a_lamp(ohm, meter, lamp_21_w):
    # 12.6 V through the joint into 10 Mohm, and into a 21 W lamp of 7.2 ohm (12.3 V squared by
    # 21 W); Ohm's law.
    circuit = circuit_of(
        "joint-out stub",
        "  joint: {kind: contact, between: [plus, joint-out], resistance: 1 mohm}\n"
        "  lead: {kind: wire, between: [joint-out, stub], resistance: 1 mohm}\n"
        "  socket: {kind: heater, between: [stub, minus], resistance: 7.2 ohm}\n",
    )
    unplugged = Series("joint", ohm), Open("socket")
    assert reading(circuit, volts("stub", "minus"), *unplugged)[0] == pytest.approx(
        meter, abs=0.006
    )
    loaded = reading(circuit, volts("stub", "minus"), Series("joint", ohm))[0]
    assert loaded == pytest.approx(lamp_21_w, abs=0.03)


def test_a_filament_lamp_takes_its_share_less_than_a_resistor_would():
    # Cold it draws more than its hot resistance says: behind 5 ohm it gets less than 7.4 V.
    circuit = circuit_of(
        "a",
        "  joint: {kind: contact, between: [plus, a]}\n"
        "  lamp: {kind: lamp, between: [a, minus], power: 21 W}\n",
    )
    shown = reading(circuit, volts("a", "minus"), Series("joint", 5.0))[0]
    assert 5.0 < shown < 7.4
    amps = reading(circuit, Probe(Tool.CLAMP, through="lamp"), Series("joint", 5.0))[0]
    assert amps == pytest.approx((21 / 12) * (shown / 12) ** 0.55, rel=1e-6)
    assert shown + amps * (5.0 + 0.005 + 0.01) == pytest.approx(12.6, abs=1e-3)


def test_a_leak_puts_a_ghost_on_an_open_wire_that_a_low_impedance_meter_does_not_show():
    circuit = circuit_of(
        "switch-out end",
        "  switch: {kind: switch, follows: key,"
        " contacts: {m: {between: [plus, switch-out], closed: [run]}}}\n"
        "  wire: {kind: wire, between: [switch-out, end], resistance: 0.1 ohm}\n"
        "  load: {kind: heater, between: [end, minus], resistance: 10 ohm}\n",
        "{key: {states: [out, run], usual: out}}",
    )
    damp = Between("plus", "end", 2e6), Open("load")
    high = reading(circuit, volts("end", "minus"), *damp)[0]
    low = reading(circuit, Probe(Tool.LOW_IMPEDANCE_VOLTMETER, "end", "minus"), *damp)[0]
    assert high == pytest.approx(12.6 * 10 / 12, rel=1e-6)
    assert low == pytest.approx(12.6 * 2500 / (2e6 + 2500), rel=1e-4)
    light = read(circuit, cases(*damp), [Probe(Tool.TEST_LIGHT, "end", "minus")]).light()
    assert light[0, 0] < 1e-6


CLUSTER = """\
  switch: {kind: switch, follows: light, contacts: {m: {between: [plus, feed], closed: ["on"]}}}
  relay:
    kind: relay
    coil: {between: [feed, splice], resistance: 90 ohm}
    contacts: {m: {common: plus, make: lamp-in}}
  lamp: {kind: lamp, between: [lamp-in, splice], power: 21 W}
  strap: {kind: chassis-ground, between: [splice, minus]}
"""


def test_a_test_light_from_an_open_ground_splice_makes_the_relay_chatter():
    # Released, the light grounds the coil through the lamp and the coil pulls; pulled, the contact
    # lifts the splice to the battery and the coil lets go.
    circuit = circuit_of(
        "feed splice lamp-in", CLUSTER, '{light: {states: ["off", "on"], usual: "on"}}'
    )
    light = Probe(Tool.TEST_LIGHT, "lamp-in", "minus")
    found = read(circuit, cases(Open("strap")), [light, volts("lamp-in", "minus")])
    assert math.isnan(found.values[0, 0])
    assert found.flags[0, 0] == Flag.UNSTABLE
    assert "chatters" in found.words(0, 0)
    assert found.values[0, 1] == pytest.approx(12.6, abs=1e-3)
    assert found.flags[0, 1] == 0


def test_a_buzzer_wired_through_its_own_break_contact_chatters():
    circuit = circuit_of(
        "coil-in",
        "  relay:\n    kind: relay\n    coil: {between: [coil-in, minus], resistance: 90 ohm}\n"
        "    contacts: {m: {common: plus, break: coil-in}}\n",
    )
    found = solved(circuit)
    assert not found.is_stable[0]
    assert np.isnan(found.voltages).all()


def test_a_short_blows_the_fuse_and_the_readings_are_those_with_the_fuse_gone():
    circuit = circuit_of(
        "fuse-out lamp-in",
        "  fuse: {kind: fuse, between: [plus, fuse-out], rating: 10 A}\n"
        "  wire: {kind: wire, between: [fuse-out, lamp-in], resistance: 0.05 ohm}\n"
        "  lamp: {kind: heater, between: [lamp-in, minus], resistance: 5 ohm}\n",
    )
    short = Between("lamp-in", "minus", 0.01)
    assert solved(circuit, short).blown == (("fuse",),)
    assert reading(circuit, volts("fuse-out", "minus"), short) == (0.0, Flag.FUSE_BLOWN)
    assert reading(circuit, volts("plus", "fuse-out"), short)[0] == pytest.approx(12.6, abs=1e-5)
    assert solved(circuit).blown == ((),)


def test_of_a_link_and_a_fuse_only_the_most_overloaded_one_goes():
    circuit = circuit_of(
        "link-out fuse-out",
        "  link: {kind: fusible-link, between: [plus, link-out], rating: 60 A,"
        " resistance: 2 mohm}\n"
        "  fuse: {kind: fuse, between: [link-out, fuse-out], rating: 10 A}\n"
        "  load: {kind: heater, between: [fuse-out, minus], resistance: 5 ohm}\n",
    )
    assert solved(circuit, Between("fuse-out", "minus", 0.01)).blown == (("fuse",),)
    assert solved(circuit, Between("link-out", "minus", 0.01)).blown == (("link",),)
