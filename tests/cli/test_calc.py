"""`faulttree calc`: list, what a sum needs, results, units, data, refusals."""

import contextlib
import io
import json
from pathlib import Path

import pytest
from builders import LAMP
from golden import assert_golden

from faulttree.cli.main import main
from faulttree.cli.plain_calc import PlainCalc
from faulttree.core.calc.registry import SUMS
from faulttree.core.units import UnitSystem

FINE, CANNOT_RUN = 0, 2
GOLDEN = Path(__file__).parent / "golden"


def calc(*words: str) -> tuple[int, str, str]:
    """Run the command; exit code, what it printed, what it said."""
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = main(["calc", *words])
    return code, out.getvalue(), err.getvalue()


def test_all_sums_one_line_each():
    code, out, _ = calc()
    assert code == FINE
    assert_golden(GOLDEN / "calc-list.txt", out)
    assert all(len(line) <= 78 for line in out.splitlines())


def test_what_each_sum_needs():
    told = "\n".join(calc(name)[1] for name in SUMS)
    assert_golden(GOLDEN / "calc-about.txt", told)
    assert all(len(line) <= 78 for line in told.splitlines())


def test_every_example_with_its_result():
    told = []
    for the_sum in SUMS.values():
        code, out, err = calc(the_sum.name, *the_sum.example.split(), "--units", "metric")
        assert (code, err) == (FINE, "")
        told.append(f"$ faulttree {the_sum.command} --units metric\n{out}")
    text = "\n".join(told)
    assert_golden(GOLDEN / "calc-results.txt", text)
    assert all(len(line) <= 78 for line in text.splitlines() if not line.startswith("$"))


def test_the_real_program(run):
    done = run("calc", "joint", "0.30", "V", "±0.01", "12", "A")
    assert (done.returncode, done.stderr) == (FINE, "")
    assert "resistance: 25.0 mΩ ±0.9 mΩ\nheat: 3.60 W ±0.12 W\n" in done.stdout
    done = run("calc", "joint", "0.3", "12")
    assert (done.returncode, done.stdout) == (CANNOT_RUN, "")
    assert done.stderr.startswith("0.3 could be drop=0.3 or current=0.3")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("wire",), "There is no sum “wire”. Did you mean wire-drop"),
        (("joint", "0.3V"), "joint still needs one of current or resistance"),
        (("joint", "0.3V", "12\x1b[31mA"), "“12?[31mA” fits none of the inputs left"),
    ],
)
def test_what_cannot_be_done_is_one_sentence_on_stderr(words, said):
    code, out, err = calc(*words)
    assert (code, out) == (CANNOT_RUN, "")
    assert err.startswith(said)
    assert len(err.splitlines()) == 1


def test_a_number_below_zero_is_no_option():
    code, out, _ = calc("wire-drop", "5m", "2.5mm2", "10A", "-40C")
    assert code == FINE
    assert "temperature −40C" in out or "temperature -40C" in out
    with pytest.raises(SystemExit), contextlib.redirect_stderr(io.StringIO()):
        main(["calc", "wire-drop", "-x"])


def test_units_by_option_by_settings_and_as_usual(tmp_path):
    line = ("winding-temperature", "3.6ohm", "4.7ohm")
    assert "temperature: 97.7 °C\n" in calc(*line, "--units", "metric")[1]
    assert "temperature: 208 °F\n" in calc(*line, "--units", "us")[1]
    assert "temperature: 208 °F (97.7 °C)\n" in calc(*line)[1]
    folder = tmp_path / "settings"
    folder.mkdir()
    (folder / "settings.json").write_text('{"units": "metric"}')
    assert "temperature: 97.7 °C\n" in calc(*line)[1]
    assert "length      5 m\n" in calc("wire-resistance", "5", "2.5mm2")[1]


def test_data():
    data = json.loads(calc("joint", "0.3V", "12A", "--json")[1])
    assert data["format"] == "sum/1"
    assert data["results"][0]["value"] == pytest.approx(0.025)
    assert [each["sum"] for each in json.loads(calc("--json")[1])["sums"]] == list(SUMS)
    assert json.loads(calc("joint", "--json")[1])["give"]["count"] == 2


def test_names_for_completion():
    assert calc("--ids")[1].split() == list(SUMS)


def test_all_that_is_printed_can_be_shown_in_ascii(run):
    for words in (("calc",), ("calc", "lamp", "21W", "12V"), ("calc", "clean-cycles", "3", "10")):
        done = run(*words, PYTHONUTF8="0", PYTHONIOENCODING="ascii", LC_ALL="C")
        assert done.returncode == FINE
        assert "?" not in done.stdout


# ------------------------------------------------------------------------------- in the plain walk


def test_a_sum_in_the_plain_walk_and_its_note(run):
    typed = "calc joint 0.30 V 12 A\ncalc note\n12.60\nquit\n"
    done = run("walk", LAMP, "--plain", "--units", "metric", "--words", "dark", typed=typed)
    assert done.returncode == FINE
    assert "resistance: 25 mΩ\nheat: 3.6 W\n" in done.stdout
    (case,) = json.loads(run("cases", "--json").stdout)
    events = json.loads(run("report", case["id"], "--json").stdout)["record"]
    assert events[1]["event"] == "note"
    assert events[1]["text"] == (
        "Worked out (joint): drop 0.30 V, current 12 A: resistance 25 mΩ, heat 3.6 W."
    )


@pytest.mark.parametrize(
    ("rest", "said"),
    [
        ("", "Joints and loads:"),
        ("joint", "joint: drop, current, resistance and heat of a joint"),
        ("wire", "There is no sum “wire”. Did you mean wire-drop"),
        ("joint 0.3V", "joint still needs one of current or resistance"),
        ("note", "There is no sum “note”."),
    ],
)
def test_what_calc_says_in_the_plain_walk(rest, said):
    plain = PlainCalc(UnitSystem.METRIC)
    assert plain.told(rest).startswith(said)
    assert plain.note == ""


def test_only_a_result_can_be_noted():
    plain = PlainCalc(UnitSystem.US)
    plain.told("lamp 21W 12V")
    noted = plain.note
    plain.told("lamp 21W")
    assert plain.note == noted
    assert noted.startswith("Worked out (lamp): power 21W, voltage 12V: hot current 1.75 A")
