"""`faulttree trace`: what is told where, options, errors, and the case it is recorded in."""

import json
import sys

import pytest
from traces import KNOWN, known_text

from faulttree.cli import trace as command
from faulttree.cli.main import parser
from faulttree.cli.progress import Progress

FINE, CANNOT_RUN = 0, 2
TREE = "no-crank-intermittent"


@pytest.fixture
def trace(tmp_path):
    def written(text, name="log.csv", encoding="utf-8"):
        path = tmp_path / name
        path.write_bytes(text.encode(encoding))
        return path

    return written


class _Done:
    """How a command ended that was run within this process."""

    def __init__(self, returncode, captured):
        self.returncode = returncode
        self.stdout, self.stderr = captured.out, captured.err


@pytest.fixture
def here(capsys, tmp_path, monkeypatch):
    """Run the command without starting a process for it."""
    monkeypatch.chdir(tmp_path)

    def start(*arguments):
        try:
            code = command.run(parser().parse_args([str(each) for each in arguments]))
        except SystemExit as error:
            code = error.code
        return _Done(code, capsys.readouterr())

    return start


def _count(done):
    assert done.returncode == FINE, done.stderr
    return json.loads(done.stdout)["count"]


def test_the_known_trace_is_told_and_nothing_on_stderr(run):
    done = run("trace", KNOWN)
    assert (done.returncode, done.stderr) == (FINE, "")
    assert done.stdout.startswith("feed.csv: volts, times from t_s\n6,000 samples in 60.00 s")
    assert "\n  5    40.00 s   10 ms   8.963 V\n" in done.stdout


def test_json_is_data_alone(here):
    done = here(
        "trace", KNOWN, "--json", "--low", "11", "--mark", "3s=wiggle", "--mark", "39=wiggle"
    )
    data = json.loads(done.stdout)
    assert (data["count"], data["marks"][0]["hits"], done.stderr) == (5, 2, "")


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16", "latin-1"])
def test_a_log_with_decimal_commas_is_read_in_any_encoding(here, trace, encoding):
    lines = known_text().replace(",", ";").replace(".", ",").splitlines()
    lines[0] = "Zeit [s];Spannung µ [V]"
    assert _count(here("trace", trace("\r\n".join(lines), encoding=encoding), "--json")) == 5


def test_columns_are_chosen_and_rates_given(here, trace):
    rows = [line.split(",")[1] for line in known_text().splitlines()[1:]]
    text = "n,feed\n" + "".join(f"{i},{row}\n" for i, row in enumerate(rows))
    path = trace(text)
    done = here("trace", path, "--json", "--column", "feed", "--unit", "V", "--rate", "100 Hz")
    assert _count(done) == 5
    done = here("trace", path, "--column", "2", "--unit", "V", "--time", "n", "--time-unit", "ms")
    assert "one every 1 ms" in done.stdout


def test_what_counts_can_be_set(here):
    asked = ("--low", "11 V", "--high", "12", "--merge", "0.2s", "--shortest", "30ms", "--json")
    assert _count(here("trace", KNOWN, *asked)) == 3
    assert _count(here("trace", KNOWN, "--above", "--high", "13.9", "--low", "13.8", "--json")) > 9


def test_marks_come_from_a_file(here, trace):
    marks = trace("time,what\n3,wiggle\n11 s,wiggle\n", "marks.csv")
    data = json.loads(here("trace", KNOWN, "--marks", marks, "--json").stdout)
    assert [(m["label"], m["at-s"]) for m in data["marks"]] == [("wiggle", [3.0, 11.0])]


@pytest.mark.parametrize(
    ("line", "arguments", "told"),
    [
        ("3,err", (), "log.csv:4:3: “err” is no reading"),
        ("3,1,2", (), "log.csv:4:5: This line has 3 columns where the others have 2"),
        ("3,1", ("--column", "amps"), "log.csv: No column is called “amps”"),
        ("3,1", ("--low", "9 ohm"), "9 ohm is no limit"),
        ("3,1", ("--merge", "soon"), "--merge soon is no length of time"),
        ("3,1", ("--rate", "fast"), "--rate fast is no number of samples a second"),
        ("3,1", ("--mark", "x=tap"), "--mark x=tap tells no time of this trace"),
        ("3,1", ("--marks", "marks.csv"), "marks.csv:2:1: No time of this trace"),
        ("3,1", ("--marks", "nowhere.csv"), "nowhere.csv: No such file"),
        ("3,1", ("--separator", "pipe"), "invalid choice"),
        ("3,1", ("--case", "nothing"), "No case fits “nothing”"),
    ],
    ids=str,
)
def test_what_cannot_be_done_is_told_in_one_line_with_its_place(here, trace, line, arguments, told):
    trace("time,what\nlater 9,tap\n", "marks.csv")
    path = trace(f"t_s,volts\n1,13.8\n2,13.8\n{line}\n4,13.8\n")
    done = here("trace", path, *arguments)
    assert (done.returncode, done.stdout) == (CANNOT_RUN, "")
    assert told in done.stderr.splitlines()[-1]


@pytest.mark.parametrize(
    ("path", "told"),
    [("nowhere.csv", "No such file"), (".", "."), ("empty.csv", "The file is empty")],
)
def test_a_file_that_is_none_is_told(here, trace, path, told):
    trace("", "empty.csv")
    done = here("trace", path)
    assert (done.returncode, done.stdout) == (CANNOT_RUN, "")
    assert told in done.stderr


def test_help_names_every_option(here):
    done = here("trace", "--help")
    assert done.returncode == FINE
    assert "--shortest" in done.stdout


def test_a_terminal_without_all_letters_gets_others(run, trace):
    path = trace(known_text().replace("volts", "Temp (°C)"))
    done = run("trace", path, "--low", "11", PYTHONUTF8="0", PYTHONIOENCODING="latin-1")
    assert done.stdout.isascii()
    assert "0.174 deg C" in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 80


@pytest.fixture
def case(run):
    """A case that was begun."""
    run("walk", TREE, "--plain", typed="")
    (case_id,) = run("cases", "--ids").stdout.split()
    return case_id


def test_what_was_found_is_recorded_in_a_case_and_told_in_its_report(run, case):
    done = run("trace", KNOWN, "--case", case, "--mark", "3s=wig_gle")
    assert done.returncode == FINE
    assert case in done.stderr
    report = " ".join(run("report", case).stdout.split())
    assert "## Logged traces 1. " in report
    assert "“volts” of feed.csv - 5 dropouts, 1.42 s in all, 2.37 % of the time." in report
    assert "At 25.00 s for 1.20 s, lowest -0.067 V" in report
    assert "After “wig\\_gle”" in report
    assert "SHA-256" in report


def test_the_record_has_it_as_data_at_the_step_named(run, here, case):
    here("trace", KNOWN, "--case", case, "--step", "battery-rest")
    record = json.loads(run("report", case, "--json").stdout)["record"]
    (event,) = [line for line in record if line["event"] == "trace"]
    assert event["step"] == "battery-rest"
    assert (event["trace"]["count"], event["trace"]["size"]) == (5, KNOWN.stat().st_size)
    assert event["standing"] == "in force"


def test_a_step_that_the_tree_has_not_is_told_and_nothing_recorded(run, here, case):
    done = here("trace", KNOWN, "--case", case, "--step", "no-step")
    assert (done.returncode, done.stdout) == (CANNOT_RUN, "")
    assert "no step “no-step”" in done.stderr
    assert "Logged traces" not in run("report", case).stdout


class _Terminal:
    def __init__(self):
        self.text = ""

    def isatty(self):
        return True

    def write(self, text):
        self.text += text

    def flush(self):
        pass


def test_a_bar_shows_only_on_a_terminal_and_is_taken_away(monkeypatch, capsys):
    monkeypatch.setattr("faulttree.cli.progress._WAIT_S", 0.0)
    with Progress("Reading") as progress:
        progress.show(0.5)
    assert capsys.readouterr().err == ""
    monkeypatch.setattr(sys, "stderr", terminal := _Terminal())
    with Progress("Reading") as progress:
        progress.show(0.5)
        assert terminal.text.startswith("\rReading [###############......")
        assert terminal.text.endswith(" 50%")
    assert terminal.text.endswith(f"\r{' ' * 46}\r")


def test_short_work_shows_no_bar(monkeypatch):
    monkeypatch.setattr(sys, "stderr", terminal := _Terminal())
    with Progress("Reading") as progress:
        progress.show(0.5)
    assert terminal.text == ""
