"""`faulttree gauges`, the word `gauges` of the plain walk, and the pictures of a report."""

import contextlib
import io
import json
import xml.etree.ElementTree as ET
from pathlib import Path

import gauge_tree
import pytest
from builders import lamp_case
from golden import assert_golden

from faulttree.cli.main import main
from faulttree.cli.plain import PlainWalk
from faulttree.files import places

FINE, CANNOT_RUN = 0, 2
GOLDEN = Path(__file__).parent / "golden"
GIVEN = ("--refrigerant", "R-134a", "--ambient", "30C", "--low", "28psi", "--high", "210psi")
PIPES = ("--suction", "12C", "--liquid", "45C")


class _Terminal(io.StringIO):
    """What shows every letter."""

    encoding = "utf-8"


def run(*words: str) -> tuple[int, str, str]:
    """Run a command; exit code, what it printed, what it said."""
    out, err = _Terminal(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = main([*words])
    return code, out.getvalue(), err.getvalue()


def gauges(*words: str) -> tuple[int, str, str]:
    return run("gauges", *words)


def test_both_pictures_below_each_other():
    code, out, err = gauges(*GIVEN, *PIPES, "--humidity", "50%", "--altitude", "300m")
    assert (code, err) == (FINE, "")
    assert_golden(GOLDEN / "gauges.txt", out)
    assert all(len(line) <= 80 for line in out.splitlines())


def test_bare_numbers_are_in_the_units_chosen():
    words = ("--refrigerant", "134a", "--ambient", "30", "--low", "193", "--units", "metric")
    code, out, _ = gauges(*words)
    assert code == FINE
    assert "Low side: 193 kPa ±17 kPa" in out
    assert "psi" not in out


def test_a_vacuum_is_no_option():
    code, out, _ = gauges("--refrigerant", "R-12", "--low", "-10inHg", "--units", "us")
    assert code == FINE
    assert "10 inHg of vacuum" in out


def test_an_instrument_s_error_is_the_technician_s_own():
    places.settings_folder().mkdir(parents=True, exist_ok=True)
    places.instrument_sheet().write_text(
        "format: instruments/1\ninstruments:\n"
        "  - id: mine\n    name: My gauges\n    class: gauges\n    load: none\n    functions:\n"
        "      gauge-pressure: [{up-to: 500 psi, resolution: 1 psi, accuracy: 5 psi}]\n",
        "utf-8",
    )
    assert "28 psi (193 kPa) ±5 psi" in gauges(*GIVEN)[1]


def test_the_data():
    code, out, _ = gauges(*GIVEN, *PIPES, "--json")
    data = json.loads(out)
    assert code == FINE
    assert data["readings"]["low-side"]["value"] == pytest.approx(28 * 6894.757, rel=1e-6)
    assert data["cycle"]["points"][0]["at"] == "compressor in"


def test_pictures_go_into_a_new_place_alone(tmp_path: Path):
    folder = tmp_path / "pictures"
    code, _, err = gauges(*GIVEN, *PIPES, "--pictures", str(folder))
    assert code == FINE
    assert err == f"Written: {folder / 'gauges.svg'}, {folder / 'cycle.svg'}\n"
    for path in folder.iterdir():
        ET.fromstring(path.read_text("utf-8"))
    code, out, err = gauges(*GIVEN, "--pictures", str(folder))
    assert (code, out) == (CANNOT_RUN, "")
    assert err.endswith("gauges.svg is there already and is kept as it is: name another folder.\n")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "Say which refrigerant it is, by label and identifier: --refrigerant R-134a"),
        (("--refrigerant", "swamp\x1b[2J"), "--refrigerant: “swamp?[2J” is no refrigerant known"),
        (("--low", "abc"), "--low: “abc” is not a reading; type 38 psi"),
        (("--low", "30psia"), "--low: psia is a unit of absolute pressure"),
        (("--low", "-40inHg"), "--low: no vacuum is as deep as that"),
        (("--suction", "5bar"), "--suction: bar is a unit of pressure"),
        (("--humidity", "150%"), "--humidity: relative humidity lies between 0 and 100 %."),
        (("--altitude", "300"), "--altitude: type it with its unit, as 350m or 1200ft."),
        (("--altitude", "90km"), "--altitude: "),
        (("--altitude", "9000m"), "--altitude: that is no place for a car"),
    ],
)
def test_what_cannot_be_is_one_sentence_on_stderr(words, said):
    known = () if not words or words[0] == "--refrigerant" else ("--refrigerant", "R-134a")
    code, out, err = gauges(*known, *words)
    assert (code, out) == (CANNOT_RUN, "")
    assert err.startswith(said)
    assert len(err.splitlines()) == 1
    assert "\x1b" not in err


def test_a_folder_that_is_a_file_is_one_sentence_too(tmp_path: Path):
    (tmp_path / "file").write_text("mine", "utf-8")
    code, out, err = gauges(*GIVEN, "--pictures", str(tmp_path / "file"))
    assert (code, out, len(err.splitlines())) == (CANNOT_RUN, "", 1)


def test_the_real_program_on_a_terminal_without_these_letters(run):
    done = run("gauges", *GIVEN, *PIPES, PYTHONUTF8="0", PYTHONIOENCODING="ascii")
    assert (done.returncode, done.stderr) == (FINE, "")
    assert done.stdout.isascii()
    assert "[==" in done.stdout


# The plain walk


def said(session, *lines: str) -> str:
    left, out = iter(lines), io.StringIO()
    PlainWalk(session, lambda _ask, _question: next(left, None), out).run()
    return out.getvalue()


def test_the_word_gauges_shows_both_pictures_as_far_as_there_are_readings(tmp_path: Path):
    session = gauge_tree.case(tmp_path)
    text = said(session, "gauges", "30 C", "193 kPa", "gauges")
    first, second = text.split("Identify the refrigerant before connecting anything")[1:3]
    assert "which is not measured yet" in " ".join(first.split())
    assert "v- 193 kPa" in second
    assert "not measured yet: high side, suction pipe, liquid pipe" in " ".join(second.split())
    text = said(session, "1448 kPa", "12 C", "45 C", "gauges")
    assert "R-134a: pressure and enthalpy" in text
    assert "Charge by weight, never by gauge." in text


def test_a_tree_without_gauges_says_so_in_one_sentence(tmp_path: Path):
    text = said(lamp_case(tmp_path), "gauges")
    assert "This tree measures neither the low side nor the high side" in " ".join(text.split())


# The report


def _case(*answers: str) -> str:
    return gauge_tree.case(places.cases_folder(), *(answers or gauge_tree.READ)).id


def test_a_report_with_pictures(tmp_path: Path):
    case_id, folder = _case(), tmp_path / "pictures of it"
    code, out, err = run("report", case_id, "--pictures", str(folder))
    assert (code, err) == (FINE, "")
    names = {f"{case_id}-gauges.svg", f"{case_id}-cycle.svg"}
    assert {path.name for path in folder.iterdir()} == names
    for path in folder.iterdir():
        ET.fromstring(path.read_text("utf-8"))
        assert f"{path.name})" in out
    assert "pictures%20of%20it" in out
    assert run("report", case_id, "--pictures", str(folder))[1] == out, "the same again"


def test_the_data_of_a_report_name_its_pictures(tmp_path: Path):
    case_id = _case()
    code, out, _ = run("report", case_id, "--json", "--pictures", str(tmp_path / "p"))
    data = json.loads(out)
    assert code == FINE
    assert data["pictures"]["cycle"] == (tmp_path / "p" / f"{case_id}-cycle.svg").as_posix()
    assert data["gauges"]["refrigerant"] == "R-134a"


def test_without_a_reading_there_is_a_report_and_no_picture(tmp_path: Path):
    code, out, err = run("report", _case("30 C"), "--pictures", str(tmp_path / "p"))
    assert (code, err) == (FINE, "There are no pictures: no gauge was read in this case.\n")
    assert out.startswith("# It cools a little")
    assert not (tmp_path / "p").exists()


def test_a_folder_that_cannot_be_written_is_one_sentence(tmp_path: Path):
    (tmp_path / "file").write_text("mine", "utf-8")
    code, out, err = run("report", _case(), "--pictures", str(tmp_path / "file"))
    assert (code, out, len(err.splitlines())) == (CANNOT_RUN, "", 1)
