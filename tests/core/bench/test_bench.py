"""What the tests of the example show on its bench, by hand calculation where there is a number."""

import math

import numpy as np
import pytest
from benches import gate

from faulttree.core.bench.bench import Bench, Seen, Shown
from faulttree.core.bench.setting import Setting
from faulttree.core.bench.sights import NO, PERHAPS, SURELY

NOTHING: frozenset[str] = frozenset()
LAMP_OHM = 12.0**2 / 21
"""Of a 21 W lamp at its rated 12 V."""


def row(bench: Bench, suspect: str, form: str = "", supply: str = "normal") -> int:
    """A car on the bench; `healthy` for one without a fault."""
    return next(
        i
        for i, r in enumerate(bench.rows)
        if (r.suspect.id if r.suspect else "healthy") == suspect
        and r.form.words == form
        and r.supply == supply
    )


def reads(bench: Bench, step: str, car: int, fitted: frozenset[str] = NOTHING) -> float:
    """The one reading of a step on a car."""
    shown = bench.shown((step, fitted))
    assert isinstance(shown, Shown)
    assert shown.low[car] == shown.high[car]
    return float(shown.low[car])


def sees(bench: Bench, step: str, car: int, fitted: frozenset[str] = NOTHING) -> list[str]:
    """The outcomes that may be seen."""
    seen = bench.shown((step, fitted))
    assert isinstance(seen, Seen)
    outcomes = bench.tree.steps[step].outcomes  # type: ignore[union-attr]
    return [o.name for o, may in zip(outcomes, seen.may_be[:, car], strict=True) if may]


def test_every_fault_is_tried_in_each_form_at_each_supply() -> None:
    bench, _ = gate()
    assert [r.supply for r in bench.rows[:3]] == ["weak", "normal", "charging"]
    joint = [r for r in bench.rows if r.suspect and r.suspect.id == "socket.series"]
    assert [(r.form.words, r.form.size) for r in joint[::3]] == [
        ("mild", 0.3),
        ("typical", 1.0),
        ("severe", 5.0),
    ]
    assert sum(r.weight for r in joint) == pytest.approx(3.0)
    fuse = [r for r in bench.rows if r.suspect and r.suspect.id == "fuse.open"]
    assert len(fuse) == 3


def test_the_battery_is_the_one_of_the_supply() -> None:
    bench, _ = gate()
    # 12.65 V behind 10 milliohm, reverse engaged: the lamp's 1.8 A and the relay take 20 mV.
    posts = reads(bench, "battery-rest", row(bench, "healthy"))
    assert posts == pytest.approx(12.65 - 0.01 * (12.6 / LAMP_OHM + 12.6 / 80), abs=0.002)
    assert reads(bench, "battery-rest", row(bench, "healthy", supply="weak")) < 12.3


def test_a_flat_battery_keeps_its_own_voltage() -> None:
    bench, _ = gate()
    # A quarter of the charge is 12.0 V (US Army TM 5-3805-262-20), less what the lamp takes.
    flat = reads(bench, "battery-rest", row(bench, "battery.flat", "typical"))
    assert flat == pytest.approx(12.0 - 0.01 * 1.9, abs=0.01)


def test_a_joint_takes_its_share_and_an_open_one_all() -> None:
    bench, _ = gate()
    assert reads(bench, "feed", row(bench, "socket.open")) == pytest.approx(0.0, abs=0.001)
    loaded = reads(bench, "ground-drop", row(bench, "ground.series", "severe"))
    amps = reads(bench, "lamp-current", row(bench, "ground.series", "severe"))
    assert loaded == pytest.approx(amps * 5.0, rel=0.01)


def test_a_load_of_the_test_draws_its_current() -> None:
    bench, _ = gate()
    # 10 ohm from the lamp's feed to the battery: 1.2 A more through the plates and the cut-out.
    shown = bench.shown(("plate-drop", NOTHING))
    assert isinstance(shown, Shown)
    severe = row(bench, "plates.main-series", "severe")
    assert float(shown.low[severe]) > 1.0


def test_given_readings_come_from_the_sheet_or_an_input() -> None:
    bench, _ = gate()
    healthy, packed = row(bench, "healthy"), row(bench, "mud-packed")
    assert reads(bench, "lead-ohms", healthy) == 0.2
    assert reads(bench, "housing-heat", healthy) == pytest.approx(303.15)
    assert reads(bench, "housing-heat", packed) == pytest.approx(383.15)


def test_an_ohmmeter_reads_what_is_left_in_the_circuit_and_its_leads() -> None:
    bench, _ = gate()
    cold = LAMP_OHM / 10
    assert reads(bench, "bulb-ohms", row(bench, "healthy")) == pytest.approx(cold + 0.2, rel=0.02)
    assert math.isinf(reads(bench, "bulb-ohms", row(bench, "lamp.open")))


def test_what_is_fitted_counts_for_the_steps_behind_it() -> None:
    bench, _ = gate()
    broken = row(bench, "relay.main-make-open")
    assert sees(bench, "bridged", broken, frozenset({"bridge"})) == ["lights"]
    assert sees(bench, "bridged", broken) == ["stays dark"]


def test_the_higher_reading_of_several_positions_is_kept() -> None:
    bench, _ = gate()
    # With the gate raised no current flows and nothing is lost over the ground; shut, it is.
    assert reads(bench, "ground-drop", row(bench, "ground.series", "typical")) > 1.0


def test_a_choice_is_the_first_position_in_which_it_is_seen() -> None:
    bench, _ = gate(bench=(("of: [raised, shut]", "of: [shut, raised]"),))
    # With the gate raised the lamp is dark as it should be: that is no fault, and the last choice.
    assert bench._chosen("gate-at-fault", np.array([row(bench, "socket.open")])) == ["shut"]
    assert bench._chosen("gate-at-fault", np.array([row(bench, "healthy")])) == ["raised"]


def test_what_is_judged_by_eye_may_go_either_way() -> None:
    bench, _ = gate()
    assert sees(bench, "watch", row(bench, "healthy")) == ["lights"]
    assert sees(bench, "watch", row(bench, "lamp.open")) == ["stays dark"]
    # 1 ohm leaves some 65 % of the light: within 15 % of the edge at 60 %.
    assert sees(bench, "watch", row(bench, "socket.series", "typical")) == ["is dim", "lights"]


def test_an_inspection_that_may_miss_shows_either() -> None:
    bench, _ = gate()
    assert sees(bench, "fuse-seen", row(bench, "fuse.open")) == ["has blown", "looks whole"]
    assert sees(bench, "fuse-seen", row(bench, "socket.open")) == ["looks whole"]


def test_where_the_circuit_cannot_tell_everything_may_be_seen() -> None:
    bench, _ = gate()
    assert sees(bench, "gate-seen", row(bench, "healthy")) == ["burnt or bent", "look clean"]


def test_the_complaint_shows_surely_or_not() -> None:
    bench, _ = gate()
    assert bench.complaint[row(bench, "healthy")] == NO
    assert bench.complaint[row(bench, "lamp.open")] == SURELY


def test_a_proof_holds_where_the_bridge_passes_the_fault_by() -> None:
    bench, _ = gate()
    cars = np.array([row(bench, "socket.open"), row(bench, "lamp.open")])
    holds = bench.proof_holds("relay-or-socket", cars)
    assert holds[cars].tolist() == [SURELY, NO]


def test_a_good_part_put_in_makes_a_healthy_car() -> None:
    bench, _ = gate()
    cars = np.array([row(bench, "lamp.open"), row(bench, "fuse.open")])
    assert bench.proof_holds("lamp-burnt", cars)[cars].tolist() == [SURELY, NO]


def test_only_what_is_asked_for_is_read() -> None:
    bench, _ = gate()
    one = np.array([row(bench, "lamp.open")])
    shown = bench.shown(("feed", NOTHING), one)
    assert shown.is_known.sum() == 1
    again = bench.shown(("feed", NOTHING))
    assert again is shown
    assert again.is_known.all()


def test_a_relay_that_starves_itself_rattles() -> None:
    # The relay's coil hangs behind its own break contact, as in a buzzer.
    bench, _ = gate(
        circuit=(
            ("coil: {between: [switch-out, battery-negative], resistance: 80 ohm}",
             "coil: {between: [buzz, battery-negative], resistance: 80 ohm}"),
            ("contacts: {main: {common: relay-30, make: body-plate}}",
             "contacts: {main: {common: switch-out, make: body-plate, break: buzz}}"),
            ("  relay-30: {words: relay terminal 30}",
             "  relay-30: {words: relay terminal 30}\n  buzz: {words: coil of the relay}"),
            ("  socket: {kind: contact, between: [fuse-out, relay-30], words: relay socket}",
             "  socket: {kind: contact, between: [fuse-out, relay-30], words: relay socket}\n"
             "  lead: {kind: contact, between: [relay-30, switch-out]}"),
            ("    faults: {coil-turns: {weight: 0}, main-make-welded: {weight: 0}}\n", ""),
        ),
        bench=(("names: [relay, socket]\n    proof", "names: [relay, socket, lead]\n    proof"),
               ("faults: [relay, socket]", "faults: [relay, socket, lead]")),
    )  # fmt: skip
    healthy = row(bench, "healthy")
    assert sees(bench, "relay-heard", healthy) == ["rattles"]
    shown = bench.shown(("feed", NOTHING))
    assert isinstance(shown, Shown)
    # The lamp is fed in one half of the cycle and not in the other: the meter swings between both.
    assert shown.low[healthy] == pytest.approx(0.0, abs=0.01)
    assert shown.high[healthy] == pytest.approx(12.5, abs=0.2)
    assert bench.complaint[healthy] in (NO, PERHAPS)


def test_a_fuse_that_went_with_the_complaint_is_gone_in_every_test() -> None:
    bench, _ = gate()
    shorted = np.array([row(bench, "lamp.shorted")])
    assert bench.complaint[shorted[0]] == SURELY
    # With the gate raised nothing draws current, and the fuse would be whole.
    raised = bench.looks.at(Setting(inputs=(("gate", "raised"),)))
    volts, _ = raised.voltage("fuse-out", "battery-negative", shorted)
    assert volts[0] == pytest.approx(0.0, abs=0.01)
    assert raised.blown("fuse", shorted).tolist() == [True]
