"""What a step of a case would read: on its circuit, at its battery, with its instruments."""

import subprocess
import sys

import pytest
from builders import Clock, answered
from lamp_circuit import at_feed, begun, lamp_folder, texts

from faulttree.case_bench.why_not import CannotTellError
from faulttree.core.instruments import Instrument
from faulttree.core.units import UnitSystem
from faulttree.files import cases
from faulttree.files.documents import check_file
from faulttree.session import Session

LAMP_EXPONENT = 0.55
"""Current of a filament goes with its voltage to this power: docs/circuit-format.md; IES Lighting
Handbook, from memory."""
BATTERY_OHM, SWITCH_OHM, TERMINAL_OHM, EYELET_OHM = 0.01, 0.01, 0.005, 0.002
"""Of the example's circuit, as docs/circuit-format.md has them."""


def _volts_at_lamp(emf: float, added: float, at_ground: float = 0.0) -> float:
    """Feed of a 21 W lamp behind an added resistance [V], by halving an interval; the few
    milliohms of the fuse are left out."""
    before = BATTERY_OHM + SWITCH_OHM + TERMINAL_OHM + added
    behind = EYELET_OHM + at_ground
    low, high = 0.0, emf
    for _ in range(80):
        lamp = (low + high) / 2
        amps = 21 / 12 * (lamp / 12) ** LAMP_EXPONENT
        low, high = (lamp, high) if lamp + amps * (before + behind) < emf else (low, lamp)
    return lamp + amps * behind


def _why_not(session: Session) -> str:
    return session.circuit.why_nothing_expected(session.state, session.ask.step_id)


def _line(found: list[str], words: str) -> str:
    (line,) = [each for each in found if words in each]
    return line


def test_the_example_is_sound(tmp_path):
    tree = lamp_folder(tmp_path)
    for file in sorted(tree.parent.iterdir()):
        assert check_file(file).problems == (), file


@pytest.mark.parametrize("battery", [11.9, 12.6])
def test_the_numbers_are_those_of_the_circuit_at_this_battery(tmp_path, battery):
    found = texts(at_feed(tmp_path, f"{battery:.2f}"))
    assert found[0] == f"Battery: {battery:g} V with the engine stopped, as last measured"
    reading = float(_line(found, "Healthy").split()[1])
    assert reading == pytest.approx(_volts_at_lamp(battery, 0.0), abs=0.02)
    weak = found[found.index(_line(found, "! weak feed")) + 1].split()
    assert weak[2:4] == ["(1", "Ω),"]
    assert float(weak[0]) == pytest.approx(_volts_at_lamp(battery, 1.0), abs=0.02)
    assert float(weak[4]) == pytest.approx(_volts_at_lamp(battery, 5.0), abs=0.02)


def test_bands_stand_with_their_edges_over_the_faults_that_fall_into_them(tmp_path):
    found = texts(at_feed(tmp_path))
    heads = [line.partition(":")[0] for line in found if line[0] in "+?!"]
    assert heads == ["! no feed", "! weak feed", "+ full feed"]
    dead = found[found.index("! no feed: below 1 V") + 1]
    assert dead == "  0 V: fuse F4: open; reversing switch: contact main does not close"
    assert "a fuse blows: reversing lamp: shorted" in _line(found, "a fuse blows")
    assert _line(found, "As on a healthy car") == (
        "As on a healthy car: reversing lamp: burnt out; ground of the lamp: lost, added series "
        "resistance"
    )
    assert "comes and goes" in found[-2]
    assert "Edges are those of the healthy car" in found[-1]


def test_without_a_battery_voltage_the_three_batteries_of_the_sheet_are_taken(tmp_path):
    session = begun(tmp_path)
    found = texts(session)
    assert found[0] == (
        "Battery: weak 12.5 V, normal 12.65 V and charging 12.75 V, because none was measured with "
        "the engine stopped; record the battery voltage to see the readings of this car"
    )
    assert _line(found, "Healthy").startswith("Healthy: weak 12.50 V ±0.08 V: + charged; normal")


def test_the_instrument_in_use_gives_the_error(tmp_path):
    coarse = Instrument.model_validate(
        {
            "id": "coarse",
            "name": "Coarse meter",
            "class": "meter",
            "load": "10 Mohm",
            "functions": {
                "voltage": [{"up-to": "60 V", "resolution": "0.1 V", "accuracy": "1 digits"}]
            },
        }
    )
    session = at_feed(tmp_path)
    assert "12.54 V ±0.08 V" in _line(texts(session), "Healthy")
    session.choose_instrument(coarse)
    assert "With: Coarse meter" in texts(session)
    assert "12.5 V ±0.1 V" in _line(texts(session), "Healthy")


def test_vehicle_data_told_during_the_walk_counts(tmp_path):
    session = answered(at_feed(tmp_path), "11.6")
    assert session.ask.name == "drop-allowed"
    assert "+ small: below drop-allowed" in texts(session)
    answered(session, "0.4")
    assert "+ small: below 0.4 V" in texts(session)


def test_what_is_fitted_counts(tmp_path):
    session = answered(at_feed(tmp_path), "0.2", "1")
    assert session.ask.step_id == "bypass-seen"
    found = texts(session)
    assert "reversing switch" not in _line(found, "+ stays dark")
    assert "reversing switch: contact main does not close" in _line(found, "As on a healthy car")


@pytest.mark.parametrize(
    ("answers", "words"),
    [
        (("stays dark",), "Note: The circuit model cannot tell what is seen here."),
        (("stays dark", "both light"), "  OL (open circuit): reversing lamp: burnt out"),
        ((), "! glows dim: reversing switch: contact main: added series resistance (1 Ω, 5 Ω)"),
    ],
)
def test_what_is_seen_and_ohms_are_told(tmp_path, answers, words):
    session = answered(begun(tmp_path), "12.60", *answers)
    assert any(line.startswith(words) for line in texts(session)), texts(session)


def test_a_sum_is_worked_out_on_every_car(tmp_path):
    session = answered(at_feed(tmp_path), "11.6", "0.4")
    drop = 12.6 - _volts_at_lamp(12.6, 1.0)
    told = float(_line(texts(session), "reversing switch: contact main: added").split()[0])
    assert told == pytest.approx(drop, abs=0.03)


def test_numbers_come_in_the_units_of_the_case(tmp_path):
    metric = texts(at_feed(tmp_path / "m", units=UnitSystem.METRIC))
    assert metric == texts(at_feed(tmp_path / "u", units=UnitSystem.US)), "volts are volts"


def test_a_second_look_is_kept_until_the_car_changes(tmp_path):
    session = at_feed(tmp_path)
    expected, state, step = session.circuit.expected, session.state, session.ask.step_id
    assert expected.known(state, step) is None
    lines = expected.lines(state, step)
    assert expected.known(state, step) is lines
    session.measure_battery("12.10")
    assert expected.known(session.state, step) is None
    assert texts(session)[0].startswith("Battery: 12.1 V")


def test_the_same_is_told_after_the_case_was_left(tmp_path):
    session = at_feed(tmp_path)
    assert texts(Session.resume(session.folder)) == texts(session)


@pytest.mark.parametrize(
    "missing", [(cases.CIRCUIT,), (cases.BENCH,), (cases.CIRCUIT, cases.BENCH)]
)
def test_a_case_without_them_says_so(tmp_path, missing):
    session = at_feed(tmp_path)
    for name in missing:
        (session.folder / name).unlink()
    again = Session.resume(session.folder, Clock())
    assert _why_not(again) == (
        f"This case has no {' and '.join(missing)} in its folder, so readings cannot be worked "
        "out; a new case of this tree keeps them."
    )
    with pytest.raises(CannotTellError, match="has no"):
        texts(again)
    answered(again, "12.5")


@pytest.mark.parametrize(
    ("name", "old", "new", "why"),
    [
        (cases.CIRCUIT, "kind: lamp", "kind: lmp", r"circuit.yaml .* cannot be used.*: line 40: "),
        (cases.CIRCUIT, "format: circuit/1", "\tformat: [", r"circuit.yaml .* cannot be used"),
        (cases.CIRCUIT, "id: reversing-lamp", "id: horn", "circuit model reversing-lamp is wanted"),
        (cases.BENCH, "tests:", "test:", r"bench.yaml .* cannot be used"),
        (cases.BENCH, "tree: lamp", "tree: horn", "a bench sheet of lamp is wanted"),
        (cases.BENCH, "  feed: {}\n", "", r"bench.yaml .* cannot be used.*: line \d+: .*feed"),
    ],
)
def test_a_damaged_document_takes_nothing_but_the_readings(tmp_path, name, old, new, why):
    session = begun(tmp_path)
    file = session.folder / name
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new), "utf-8")
    again = Session.resume(session.folder, Clock())
    assert again.found == ()
    answered(again, "12.60", "glows dim")
    with pytest.raises(CannotTellError, match=why) as told:
        texts(again)
    assert str(told.value).count(". ") == 0, "one sentence"


def test_whatever_goes_wrong_in_the_solver_is_a_sentence(tmp_path, monkeypatch):
    from faulttree.core.bench.bench import Bench

    def fails(*_: object) -> None:
        raise ZeroDivisionError("no pivot")

    monkeypatch.setattr(Bench, "__init__", fails)
    with pytest.raises(CannotTellError, match=r"do not fit .* \(ZeroDivisionError: no pivot\)"):
        texts(at_feed(tmp_path))


@pytest.mark.parametrize("answers", [("0.2",), ("12.50", "1.20")])
def test_where_nothing_is_read_nothing_is_expected(tmp_path, answers):
    session = answered(at_feed(tmp_path), *answers)
    assert _why_not(session) == "Nothing is read at this step."


def test_one_switch_keeps_them_from_being_looked_at(tmp_path):
    session = at_feed(tmp_path)
    assert _why_not(session) == ""
    session.circuit.shows_expected = False
    assert _why_not(session) == "Expected readings are not shown in this case."


def test_a_walk_begins_and_goes_on_without_reading_a_circuit(tmp_path):
    session = at_feed(tmp_path)
    code = (
        "import sys\n"
        "from pathlib import Path\n"
        "from faulttree.session import Session\n"
        "from faulttree.files.opening import open_tree\n"
        f"open_tree({str(tmp_path / 'tree' / 'tree.yaml')!r})\n"
        f"Session.resume(Path({str(session.folder)!r})).ask\n"
        "print([m for m in ('numpy', 'faulttree.core.circuit.document') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert (done.stdout, done.stderr) == ("[]\n", "")
