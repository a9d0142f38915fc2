"""Suspects of the shipped trees after readings of cars whose fault is known."""

from dataclasses import replace
from random import Random

import pytest
from benches import TREES
from core.suspects.calibration import likeliest
from core.suspects.real_cars import RealCar, real_car, suspects_at, with_fault

from faulttree.core.suspects.evidence import Read
from faulttree.core.suspects.hypotheses import Sighting
from faulttree.core.suspects.suspicion import Ranked, Suspicion
from faulttree.core.suspects.twos import both
from faulttree.core.uncertain import Uncertain

BLOWER = "blower-some-speeds"
CRANK = "no-crank-intermittent"


def _car(name: str, fault: str, size: float | None = None) -> RealCar:
    return with_fault(name, fault, size, Random(1))


def _suspicion(name: str, car: RealCar, reads: tuple[Read, ...]) -> Suspicion:
    """On the battery of the car, as a voltmeter tells it."""
    stopped, running = car.battery
    return suspects_at(name, round(stopped, 1), round(running, 1)).after(reads, {})


def _of(suspicion: Suspicion, fault: str) -> Ranked:
    return next(r for r in suspicion.ranked if r.suspect.id == fault)


def _all_steps(car: RealCar) -> list[str]:
    """Every step that is measured or seen, as it is before anything is fitted."""
    return [step for step, fitted in car.bench.keys if not fitted]


@pytest.mark.parametrize("sighting", list(Sighting))
@pytest.mark.parametrize("name", TREES)
def test_a_healthy_car_condemns_no_part(name: str, sighting: Sighting) -> None:
    """Everything that the tree can ask reads as on a healthy car, whatever is said of the
    complaint."""
    car = real_car(name, Random(1), off=0.0)
    reads = car.reads(_all_steps(car), sighting)
    if sighting is Sighting.UNKNOWN:
        reads = tuple(replace(read, stretch=i) for i, read in enumerate(reads))
    suspicion = _suspicion(name, car, reads)
    assert likeliest(suspicion)[1] < 0.5
    if sighting is Sighting.PRESENT:
        assert suspicion.none > 0.2, "it shows, and nothing that is known explains it"


@pytest.mark.parametrize("ohm", [0.3, 0.5, 1.0, 1.7, 2.0, 3.0, 5.0, 8.0])
def test_a_fault_between_two_severities_is_found_as_a_typical_one_is(ohm: float) -> None:
    """The tree is proved with 0.3, 1 and 5 ohm; a real joint has any resistance."""
    car = _car(CRANK, "start-wire.series", ohm)
    steps = ["key-held", "symptom", "start-terminal", "relay-drop", "link-drop"]
    suspicion = _suspicion(CRANK, car, car.reads(steps))
    first = suspicion.ranked[0].suspect
    assert first.part == "start wire, relay to starter"
    assert likeliest(suspicion)[1] > 0.9


def test_a_slip_of_a_factor_of_ten_does_not_clear_for_good() -> None:
    """One reading is mistyped, each in turn; read anew, the true fault is the likeliest again."""
    car = _car(CRANK, "start-wire.series", 1.0)
    steps = ["key-held", "symptom", "start-terminal", "relay-drop", "link-drop"]
    for slipped in steps[2:]:
        for factor in (0.1, 10.0):
            wrong = car.reads(steps, typed={slipped: factor})
            anew = replace(car.reads([slipped])[0], seq=len(steps))
            suspicion = _suspicion(CRANK, car, (*wrong, anew))
            true = _of(suspicion, "start-wire.series")
            assert true.share > 0.5, (slipped, factor)
            assert _of(_suspicion(CRANK, car, wrong), "start-wire.series").share > 1e-6


def test_none_of_these_grows_with_readings_that_no_fault_explains() -> None:
    """Half of the battery's voltage lost at each of four places at once: one fault leaves three of
    them without a reason, and two faults leave two."""
    car = _car(CRANK, "start-wire.open")
    steps = ["ign-drop", "pn-drop", "coil-ground", "link-drop"]
    odd = tuple(replace(read, value=Uncertain(6.1, rest=0.03)) for read in car.reads(steps))
    told = [_suspicion(CRANK, car, odd[:n]) for n in range(len(odd) + 1)]
    assert told[1].none < 0.3
    assert told[4].none > 0.9
    assert told[1].none < told[2].none < told[3].none < told[4].none


def test_two_faults_at_once_are_thought_of_where_one_does_not_do() -> None:
    """A dirty clamp and a dirty ignition switch: the relay does not pull, and what little the
    headlamps draw drops at the clamp."""
    names = ("clamp-positive.series", "ignition-switch.start-series")
    each = [_car(CRANK, name, ohm).suspect for name, ohm in zip(names, (0.75, 450.0), strict=True)]
    one, other = (suspect for suspect in each if suspect)
    car = real_car(CRANK, Random(1), both(one, other))
    steps = ["battery-rest", "key-held", "crank-posts", "clamp-pos", "coil-voltage", "ign-drop"]
    suspicion = _suspicion(CRANK, car, car.reads(steps))
    together = suspicion.together[0]
    assert {together.one.id, together.other.id} == set(names)
    assert together.share > 0.5
    assert {r.suspect.id for r in suspicion.ranked[:2]} == set(names)


def test_readings_tell_before_and_after() -> None:
    """What is told of before the last reading is what was told then."""
    car = _car(BLOWER, "blower-fuse.open")
    reads = car.reads(["seen", "battery-rest", "pattern", "motor-current", "motor-feed"])
    for n in range(1, len(reads) + 1):
        now = _suspicion(BLOWER, car, reads[:n])
        before = _suspicion(BLOWER, car, reads[: n - 1])
        assert now.none_before == pytest.approx(before.none)
        told = {r.suspect.id: r.share for r in before.ranked}
        assert {r.suspect.id: r.before for r in now.ranked} == pytest.approx(told)


def test_probabilities_add_up_and_the_likeliest_is_first() -> None:
    car = _car(BLOWER, "blower-fuse.open")
    suspicion = _suspicion(BLOWER, car, car.reads(["seen", "pattern", "motor-feed"]))
    shares = [r.share for r in suspicion.ranked]
    assert shares == sorted(shares, reverse=True)
    twice = sum(t.share for t in suspicion.together)
    assert sum(shares) - twice + suspicion.none == pytest.approx(1.0)
    assert sum(r.prior for r in suspicion.ranked) == pytest.approx(1 / 1.02)


def test_without_readings_there_is_what_was_before() -> None:
    suspicion = suspects_at(BLOWER).after((), {})
    assert all(r.share == pytest.approx(r.prior) for r in suspicion.ranked)
    assert all(r.before == r.share and not r.speaks for r in suspicion.ranked)
