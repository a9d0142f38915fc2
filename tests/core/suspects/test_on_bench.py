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
    steps = ["key-held", "symptom", "start-terminal", "relay-drop", "coil-voltage"]
    suspicion = _suspicion(CRANK, car, car.reads(steps))
    first = suspicion.ranked[0].suspect
    assert first.part == "start wire, relay to starter"
    assert likeliest(suspicion)[1] > 0.9


def test_a_slip_of_a_factor_of_ten_does_not_clear_for_good() -> None:
    """One reading is mistyped, each in turn; read anew, the true fault is the likeliest again."""
    car = _car(CRANK, "start-wire.series", 1.0)
    steps = ["key-held", "symptom", "start-terminal", "relay-drop", "coil-voltage"]
    for slipped in steps[2:]:
        for factor in (0.1, 10.0):
            wrong = car.reads(steps, typed={slipped: factor})
            anew = replace(car.reads([slipped])[0], seq=len(steps))
            suspicion = _suspicion(CRANK, car, (*wrong, anew))
            true = _of(suspicion, "start-wire.series")
            assert true.share > 0.5, (slipped, factor)
            assert _of(_suspicion(CRANK, car, wrong), "start-wire.series").share > 1e-6


def test_none_of_these_grows_with_readings_that_no_fault_explains() -> None:
    """A battery voltage where every fault leaves none or all, at one step after the other."""
    car = _car(CRANK, "start-wire.open")
    steps = ["start-terminal", "coil-voltage", "signal-in", "link-drop"]
    odd = tuple(replace(r, value=_half(r)) for r in car.reads(steps))
    nones = [_suspicion(CRANK, car, odd[:n]).none for n in range(len(odd) + 1)]
    assert nones[-1] > 10 * nones[0]


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


def _half(read: Read) -> object:
    assert read.value is not None
    return replace(read.value, value=5.1)
