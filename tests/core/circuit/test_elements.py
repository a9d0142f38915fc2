"""Each kind of element by what it does to a reading."""

import math

import pytest
from core.circuit.samples import cases, circuit_of, reading, sample, solved

from faulttree.core.circuit.cases import Cases
from faulttree.core.circuit.circuit import State, Supply
from faulttree.core.circuit.edits import Between, Ohm
from faulttree.core.circuit.faults import Injected, faults_of
from faulttree.core.circuit.probes import Probe, Tool, ohms, volts
from faulttree.core.circuit.readings import Flag, read
from faulttree.core.circuit.solve import solve

C = 273.15
NOTHING = pytest.approx(0.0, abs=1e-12)


def amps(circuit, branch, **inputs):
    return float(solved(circuit, **inputs).current(branch)[0])


def one(circuit, state):
    return solve(circuit, Cases.one(state))


def test_a_charging_battery_has_the_generator_s_voltage():
    unit = sample("clutch-unit")
    assert float(solved(unit, engine="idle").voltage("battery-positive")[0]) > 14.0
    assert float(solved(unit, engine="stopped").voltage("battery-positive")[0]) <= 12.6


def test_another_supply_stands_in_for_the_battery():
    lamp = sample("lamp-relay")
    weak = one(lamp, State(supply=Supply(11.8, 0.03)))
    drop = -float(weak.current("battery")[0]) * 0.03
    assert float(weak.voltage("battery-positive")[0]) == pytest.approx(11.8 - drop, abs=1e-9)


def test_a_warm_wire_and_a_warm_coil_have_more_resistance():
    unit = sample("clutch-unit")
    cold, warm = (
        reading(unit, ohms("clutch-in", "clutch-out"), engine_bay=t + C)[0] for t in (20, 80)
    )
    assert cold == pytest.approx(3.6, rel=1e-6)
    assert warm == pytest.approx(3.6 * (1 + 0.00393 * 60), rel=1e-6)


DROPPER = """\
  dropper: {kind: heater, between: [plus, coil-in], resistance: 80 ohm}
  relay:
    kind: relay
    coil: {between: [coil-in, minus], resistance: 90 ohm}
    contacts: {m: {common: plus, make: out}}
  load: {kind: heater, between: [out, minus], resistance: 20 ohm}
"""


def test_a_relay_between_drop_out_and_pull_in_stays_released_when_it_comes_from_rest():
    # A 90 ohm coil behind 80 ohm gets 6.7 V: more than it drops out at, less than it pulls at.
    circuit = circuit_of("coil-in out", DROPPER)
    assert float(solved(circuit).voltage("coil-in")[0]) == pytest.approx(6.67, abs=0.01)
    assert not solved(circuit).on[0, 0]


def test_a_relay_between_drop_out_and_pull_in_holds_when_an_instrument_finds_it_pulled():
    # A joint past the dropper pulls it in; taken out for the reading, it leaves it holding.
    joint = "  joint: {kind: contact, between: [plus, coil-in]}\n"
    circuit = circuit_of("coil-in out", DROPPER + joint)
    for probe, wanted in (
        (Probe(Tool.VOLTMETER, "out", "minus", removed=("joint",)), 12.6),
        (Probe(Tool.AMMETER, through="load", removed=("joint",)), 12.6 / 20),
    ):
        found = read(circuit, Cases.one(), [probe]).values[0, 0]
        assert found == pytest.approx(wanted, rel=0.01)


def test_a_driver_drives_only_after_its_delay():
    unit = sample("clutch-unit")
    early, late = (one(unit, State(elapsed_s=t)) for t in (0.2, 1.0))
    assert float(early.current("clutch")[0]) == NOTHING
    assert float(late.current("clutch")[0]) == pytest.approx(3.2, abs=0.2)


def test_a_driver_follows_inputs_states_and_voltages():
    unit = sample("clutch-unit")
    assert amps(unit, "clutch", request="off") == NOTHING
    assert amps(unit, "clutch", key="off") == NOTHING
    assert amps(unit, "clutch", low_side=100e3) == NOTHING
    # With the engine stopped the other condition asks for 13.5 V at the fuse.
    assert amps(unit, "clutch", engine="stopped") == NOTHING
    charged = State({"engine": "stopped"}, supply=Supply(14.4, 0.01))
    assert float(one(unit, charged).current("clutch")[0]) > 3.0


def test_a_threshold_switch_keeps_between_its_points_what_it_was_at_the_usual_value():
    unit = sample("clutch-unit")  # opens at 140 kPa, closes at 190 kPa, usually 300 kPa
    assert amps(unit, "cut-out", low_side=160e3) > 0.0
    assert amps(unit, "cut-out", low_side=139e3) == 0.0
    fan = sample("thermo-fan")  # closes at 93 C, opens at 87 C, usually 107 C
    assert amps(fan, "switch", coolant=90 + C) > 0.0
    assert amps(fan, "switch", coolant=80 + C) == 0.0


def test_a_cold_filament_has_a_tenth_of_its_hot_resistance():
    lamp = sample("lamp-relay")
    cold = reading(lamp, ohms("lamp-in", "lamp-out", "lamp-feed"))[0]
    assert cold == pytest.approx(0.1 * 144 / 21, rel=1e-3)
    found = solved(lamp)
    hot = float(
        (found.voltage("lamp-in") - found.voltage("lamp-out"))[0] / found.current("lamp")[0]
    )
    assert hot == pytest.approx(144 / 21 * (12.39 / 12) ** 0.45, rel=1e-3)


def test_a_motor_takes_its_rated_current_and_at_rest_what_its_winding_takes():
    circuit = circuit_of(
        "m",
        "  motor: {kind: motor, between: [plus, m], voltage: 12.4 V, current: 10 A,"
        " winding: 0.4 ohm}\n"
        "  ground: {kind: wire, between: [m, minus], resistance: 10 mohm}\n",
    )
    assert amps(circuit, "motor") == pytest.approx(10.0, rel=1e-6)
    assert reading(circuit, ohms("plus", "m", "ground"))[0] == pytest.approx(0.4, rel=1e-6)


def test_a_window_motor_is_turned_the_other_way_by_the_other_contact():
    window = sample("window-motor")
    up, down = (amps(window, "motor", rocker=way) for way in ("up", "down"))
    assert up == pytest.approx(-down, rel=1e-9)
    assert amps(window, "motor", rocker="rest") == 0.0


def test_a_diode_across_a_coil_does_nothing_until_it_is_shorted():
    lamp = sample("lamp-relay")
    assert float(solved(lamp).current("relay.diode")[0]) == 0.0
    (shorted,) = (f.at() for f in faults_of(lamp.model) if f.id == "relay.diode-shorted")
    found = solve(lamp, Cases.one(None, shorted))
    assert float(found.current("lamp")[0]) == NOTHING, "it takes the fuse with it"
    assert float(solved(lamp).current("lamp")[0]) > 1.0


def test_an_ohmmeter_sees_a_diode_one_way_only():
    circuit = circuit_of(
        "k",
        "  diode: {kind: diode, between: [plus, k]}\n"
        "  load: {kind: heater, between: [k, minus], resistance: 10 ohm}\n",
    )
    forward = reading(circuit, ohms("plus", "k", "load"))
    backward = reading(circuit, ohms("k", "plus", "load"))
    assert 500 < forward[0] < 2500
    assert (math.isinf(backward[0]), backward[1]) == (True, Flag.OVER_RANGE)


def test_an_led_probe_lights_one_way_only_and_on_little_current():
    circuit = circuit_of(
        "a",
        "  high: {kind: heater, between: [plus, a], resistance: 1 kohm}\n"
        "  low: {kind: heater, between: [a, minus], resistance: 100 kohm}\n",
    )
    lit = reading(circuit, Probe(Tool.LED_PROBE, "a", "minus"))[0]
    assert lit > 6.0
    dark = reading(circuit, Probe(Tool.LED_PROBE, "minus", "a"))[0]
    assert dark < -12.0


def test_an_ammeter_in_the_place_of_a_fuse_and_a_clamp_agree_but_for_the_shunt():
    lamp = sample("lamp-relay")
    shunt = Probe(Tool.AMMETER, "battery-positive", "fuse-out", removed=("fuse",))
    in_series = Probe(Tool.AMMETER, through="lamp-feed")
    clamp = Probe(Tool.CLAMP, through="lamp-feed")
    found = read(lamp, cases(), [shunt, in_series, clamp]).values[0]
    assert found[0] == pytest.approx(found[2] + 12.5 / 90, rel=0.01)
    assert 0.99 < found[1] / found[2] < 1.0


def test_an_ammeter_across_the_battery_blows_its_own_fuse():
    value, flags = reading(
        sample("lamp-relay"), Probe(Tool.AMMETER, "battery-positive", "battery-negative")
    )
    assert math.isnan(value)
    assert flags & Flag.METER_FUSE


def test_what_is_taken_out_carries_nothing_and_a_lead_carries_in_its_place():
    lamp = sample("lamp-relay")
    without = one(lamp, State(removed=("relay",)))
    assert float(without.current("lamp")[0]) == 0.0
    bridged = one(lamp, State(removed=("relay",), bridges=(("fuse-out", "relay-87"),)))
    assert float(bridged.current("lamp")[0]) == pytest.approx(1.78, abs=0.01)


def test_a_shorted_lamp_that_is_taken_out_is_no_short():
    lamp = sample("lamp-relay")
    shorted = Ohm("lamp", 0.01)
    assert reading(lamp, ohms("lamp-in", "lamp-out", "lamp-feed"), shorted)[0] == pytest.approx(
        0.01
    )
    with_lamp_out = ohms("lamp-in", "lamp-out", "lamp")
    assert math.isinf(reading(lamp, with_lamp_out, shorted)[0])
    fault = Injected("lamp.shorted", (shorted,))
    out = solve(lamp, Cases.one(State(removed=("lamp",)), fault))
    assert out.blown == ((),)
    assert solve(lamp, Cases.one(State(), fault)).blown == (("fuse",),)


def test_names_that_are_not_there_are_refused():
    lamp = sample("lamp-relay")
    with pytest.raises(KeyError):
        one(lamp, State({"lights": "on"}))
    with pytest.raises(KeyError):
        one(lamp, State({"light": "up"}))
    with pytest.raises(KeyError):
        reading(lamp, volts("lamp-on", "body"))
    with pytest.raises(ValueError, match="two leads"):
        Probe(Tool.VOLTMETER, "body")


def test_the_thermal_fuse_of_a_pack_goes_when_the_pack_carries_too_much():
    # 13.8 V over 0.5 ohm is more than the 18 A it stands; the 30 A fuse of the feed stays.
    short = Between("motor-in", "battery-negative", 0.01)
    found = solved(sample("blower-pack"), short, speed="mid")
    assert found.blown == (("pack.thermal-fuse",),)


def test_readings_of_many_cases_keep_their_order_beyond_one_chunk():
    lamp = sample("lamp-relay")
    states = [State(supply=Supply(10 + i / 200, 0.01)) for i in range(700)]
    found = solve(lamp, Cases.every(states, [()]))
    read_off = read(
        lamp, Cases.every(states, [()]), [volts("battery-positive", "battery-negative")]
    )
    assert found.voltages.shape[0] == 700
    assert (abs(read_off.values[:, 0] - found.voltage("battery-positive")) < 1e-6).all()
    assert (found.voltage("battery-positive")[1:] > found.voltage("battery-positive")[:-1]).all()
