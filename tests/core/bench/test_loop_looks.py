"""Circuit and refrigerant loop of one car, each working on the other."""

from pathlib import Path

import numpy as np
import pytest

from faulttree.core.bench.looks import Looks, Supplied
from faulttree.core.bench.loop_runs import Asked, Drawn, LoopRuns
from faulttree.core.bench.setting import Setting
from faulttree.core.bench.suspects import Form, Row, Suspect, rows_of
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.faults import faults_of
from faulttree.core.circuit.loop_document import SHOWN
from faulttree.core.circuit.loop_faults import faults_of_loop
from faulttree.core.circuit.netlist import Supply
from faulttree.files.documents import circuit_from_bytes

NORMAL = Supplied(Supply(12.65, 0.01), Supply(13.8, 0.02))
CAR = Path(__file__).parents[2] / "data" / "loop" / "car.yaml"


@pytest.fixture(scope="module")
def circuit() -> Circuit:
    return Circuit.from_document(circuit_from_bytes(CAR.read_bytes(), "car").document)


def _rows(circuit, *names):
    """A healthy car and one with each fault, at its middle size."""
    by_id = {fault.id: fault for fault in faults_of(circuit.model)}
    of_loop = {fault.id: fault for fault in faults_of_loop(circuit.model.loop)}
    suspects = []
    for name in names:
        if name in by_id:
            form = Form(injected=(by_id[name].at(),))
        else:
            sizes = of_loop[name].sizes or (1.0,)
            form = Form(inputs=of_loop[name].at(sizes[len(sizes) // 2]))
        suspects.append(Suspect(name, name, name, 1.0, None, (form,)))
    return rows_of(suspects, ("normal",))


def _shown(circuit, what, inputs=None, faults=(), **setting):
    rows = _rows(circuit, *faults)
    looks = Looks(circuit, {"normal": NORMAL}, rows)
    look = looks.at(Setting(is_running=True, **setting).having(inputs or {}))
    return look.measured(what, np.arange(len(rows)))


def test_everything_a_loop_shows_has_a_name_and_nothing_else(circuit):
    (values,) = LoopRuns(circuit.model).shown([Asked({}, Drawn(), 0.0)])
    assert values.keys() == SHOWN.keys()
    for name in SHOWN:
        assert np.isfinite(_shown(circuit, name)).all(), name


def test_a_dead_condenser_fan_shows_on_the_high_side_at_idle_and_not_on_the_road(circuit):
    faults = ("condenser-fan.open",)
    idle = _shown(circuit, "high-side", {"engine": "idle"}, faults)
    road = _shown(circuit, "high-side", {"engine": "driving"}, faults)
    assert idle[1] > idle[0] + 300e3
    assert road[1] == pytest.approx(road[0], abs=80e3)


def test_a_bad_ground_slows_the_fan_and_raises_the_high_side_a_little(circuit):
    healthy, bad, dead = _shown(
        circuit, "high-side", faults=("fan-eyelet.series", "condenser-fan.open")
    )
    assert healthy < bad < dead


def test_a_cut_out_that_lets_the_clutch_go_is_shown_with_the_pressure_that_did_it(circuit):
    """With the fan dead on a hot day the high cut-out opens, and closes again a little later."""
    rows = _rows(circuit, "condenser-fan.open")
    looks = Looks(circuit, {"normal": NORMAL}, rows)
    look = looks.at(Setting(is_running=True).having({"ambient": 316.15, "engine": "idle"}))
    every = np.arange(2)
    assert look.measured("high-side", every)[1] > 2700e3
    current, _ = look.current("clutch-coil", every)
    assert current[0] > 2.5
    assert current[1] == pytest.approx(0.0, abs=1e-6)


def test_switched_off_or_stopped_both_gauges_are_alike(circuit):
    for inputs in ({"ac-switch": "off"}, {"engine": "stopped"}):
        low, high = (_shown(circuit, name, inputs) for name in ("low-side", "high-side"))
        assert low == pytest.approx(high)


def test_a_slow_blower_gives_less_air(circuit):
    healthy, slow = _shown(circuit, "airflow", faults=("blower-motor.drag",))
    assert slow < 0.95 * healthy
    healthy, dead = _shown(circuit, "airflow", faults=("blower-fuse.open",))
    assert dead <= 0.05 < healthy


def test_a_stuck_control_freezes_the_evaporator_after_a_while(circuit):
    faults = ("loop.control-stuck",)
    cool = {"ambient": 290.15}
    soon = _shown(circuit, "airflow", cool, faults, elapsed_s=600.0)
    late = _shown(circuit, "airflow", cool, faults)
    assert soon[1] == soon[0] == late[0]
    assert late[1] < 0.3 * late[0]
    vent = _shown(circuit, "vent", cool, faults)
    assert vent[1] > vent[0] + 3


def test_the_lever_sends_the_air_through_the_heater(circuit):
    cold, hot = (_shown(circuit, "vent", {"lever": s, "ac-switch": "off"}) for s in ("cold", "hot"))
    assert cold[0] == pytest.approx(305.15, abs=0.5)
    assert hot[0] > 330


def test_what_a_situation_says_of_the_loop_is_taken_as_it_stands(circuit):
    rows = (Row(None, Form(), "normal", 0.0), Row(None, Form(inputs={"fin": 250.0}), "normal", 0.0))
    looks = Looks(circuit, {"normal": NORMAL}, rows)
    look = looks.at(Setting(is_running=True))
    low, _ = look.current("clutch-coil", np.arange(2))
    assert look.measured("fin", np.arange(2))[1] == 250.0
    assert low[0] > 2.5
    assert low[1] == pytest.approx(0.0, abs=1e-6)  # the thermostat's contact has opened


def test_faults_of_the_loop_are_suspects_with_their_sizes(circuit):
    by_id = {fault.id: fault for fault in faults_of_loop(circuit.model.loop)}
    assert by_id["loop.undercharge"].sizes == (0.5, 0.7)
    assert by_id["loop.undercharge"].weight == 20
    assert dict(by_id["loop.undercharge"].at(0.7)) == {"loop.charge": pytest.approx(0.3)}
    assert "loop.tube-blocked" not in by_id  # it has a valve


@pytest.mark.parametrize("rounds", [4, 5])
@pytest.mark.parametrize("ambient", [290.15, 293.15, 295.15, 298.15, 300.15, 303.15, 308.15])
def test_a_fan_that_its_switch_turns_on_and_off_is_shown_running(
    circuit, ambient, rounds, monkeypatch
):
    """It closes at 1500 kPa and opens at 1100 kPa: fan and pressure belong together, however often
    one is worked out from the other."""
    monkeypatch.setattr("faulttree.core.bench.loop_looks.ROUNDS", rounds)
    looks = Looks(circuit, {"normal": NORMAL}, _rows(circuit))
    look = looks.at(Setting(is_running=True).having({"ambient": ambient, "engine": "idle"}))
    every = np.arange(1)
    pressure = look.measured("high-side", every)[0]
    low, _ = look.current("condenser-fan", every)
    assert low[0] > 11.0
    assert 1100e3 <= pressure < 1700e3
    if ambient < 299:
        assert pressure < 1103e3, "just before it stops"


def test_a_car_filled_for_another_refrigerant_shows_its_pressures(circuit):
    """At rest at 32 °C it shows saturation: 815.4 kPa of R-134a, 783.5 kPa of R-12, absolute.
    Source: CoolProp 8."""
    at_rest = {"engine": "stopped"}
    own, other = (
        _shown(circuit, "high-side", {**at_rest, **more}, ("loop.wrong-refrigerant",))
        for more in ({}, {"loop.refrigerant": "R-12"})
    )
    assert own == pytest.approx([other[1], other[0]], abs=1.0)
    assert own == pytest.approx([815.4e3 - 101.3e3, 783.5e3 - 101.3e3], abs=2e3)


def test_a_car_high_above_the_sea_shows_more_on_the_same_gauge(circuit):
    """At 2000 m the standard atmosphere is 79.50 kPa. Source: ISO 2533 (1975)."""
    at_rest = {"engine": "stopped"}
    sea, hill = (
        _shown(circuit, "low-side", {**at_rest, "loop.altitude": metres})
        for metres in (0.0, 2000.0)
    )
    assert hill - sea == pytest.approx(101325 - 79495, abs=20)
