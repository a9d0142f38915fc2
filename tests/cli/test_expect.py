"""`faulttree expect`: what a step would read, and what cannot be expected."""

import json

import pytest
from builders import LAMP
from proofs import CARGO

FINE, CANNOT_RUN = 0, 2


@pytest.mark.parametrize(
    ("step", "told"),
    [
        ("switch-feed", "0.0000 V ±0.0002 V  a fuse blows: lamp.shorted\n"),
        ("plug-loss", "  worked out: switch-feed - lamp-feed\n"),
        ("fuse-look", "! melted through -> fuse-blown\n  fuse.open, lamp.shorted\n"),
    ],
)
def test_a_step_is_told_band_by_band(run, step, told):
    done = run("expect", CARGO, step)
    assert (done.returncode, done.stderr) == (FINE, "")
    assert done.stdout.startswith(f"{step}: ")
    assert told in done.stdout


@pytest.mark.parametrize("battery", ["12.4 V", "12,4", "12400 mV"])
def test_one_battery_takes_the_place_of_three(run, battery):
    """Source: Ohm's law, 21 W at 12 V behind 10 mohm: 12.4 V less 18 mV."""
    done = run("expect", CARGO, "battery-rest", "--battery", battery)
    assert done.returncode == FINE
    assert "healthy: 12.38 V ±0.08 V: + charged (as read, 12.4 V)" in done.stdout


def test_json_is_data_alone(run):
    done = run("expect", CARGO, "switch-feed", "--battery", "12.4 V", "--json")
    data = json.loads(done.stdout)
    assert (data["format"], data["tree"], data["kind"]) == ("expected/1", "cargo-lamp", "measure")
    assert {car["supply"] for car in data["cars"]} == {"as read, 12.4 V"}


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        ((CARGO, "switchfeed"), "Did you mean switch-feed?"),
        ((CARGO, "plug-bad"), "At plug-bad the walk ends"),
        ((CARGO, "seen", "--battery", "a lot"), "is not a reading"),
        ((CARGO, "seen", "--battery", "12 A"), "is a unit of current"),
        ((CARGO, "seen", "--battery", "120 V"), "is no battery of these cars"),
        ((CARGO, "seen", "--battery", "0"), "is no battery of these cars"),
        ((LAMP, "feed"), "names no circuit model"),
        (("no-such-tree", "feed"), "No tree is called"),
        ((CARGO,), "required"),
    ],
    ids=str,
)
def test_what_cannot_be_expected_is_told_in_a_sentence(run, arguments, told):
    done = run("expect", *arguments)
    assert (done.returncode, done.stdout) == (CANNOT_RUN, "")
    assert told in done.stderr


def test_a_terminal_without_all_letters_gets_others(run):
    done = run("expect", CARGO, "filament", PYTHONUTF8="0", PYTHONIOENCODING="latin-1")
    assert done.stdout.isascii()
    assert "0.7 ohm +/-0.3 ohm" in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 80
