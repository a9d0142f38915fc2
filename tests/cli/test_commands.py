"""Exit codes; data on stdout, talk on stderr; and --help without anything heavy."""

import json
import subprocess
import sys

import pytest
from builders import LAMP, lamp_text

FINE, FINDINGS, CANNOT_RUN = 0, 1, 2
ANSWERS = """
complaint: present
vehicle: {drop-allowed: 0.3 V, lamp-type: LX-5}
answers:
  battery-rest: 12.60 V
  lamp-seen: glows dim
  feed: ["12.50"]
  ground-drop: ["120", "no", "1.20 V"]
  ground-bad: [accept, "1", Clean the eyelet, clean, clean, clean, close]
"""


def test_a_sound_tree_is_fine(run):
    done = run("check", LAMP)
    assert (done.returncode, done.stdout) == (FINE, "")
    assert done.stderr == "2 files checked: 0 errors, 0 warnings\n"


def test_a_broken_tree_is_a_finding_with_its_place(run, tmp_path):
    (tmp_path / "tree.yaml").write_text(lamp_text(("    how: Stand", "    hwo: Stand")), "utf-8")
    done = run("check", "tree.yaml")
    assert done.returncode == FINDINGS
    assert "--> tree.yaml:70:5" in done.stdout
    assert done.stderr == "1 file checked: 1 error, 0 warnings\n"


def test_a_warning_counts_only_when_strict(run, tmp_path):
    changed = lamp_text(("  facts:\n", "  facts:\n    spare: {ask: x}\n"))
    (tmp_path / "tree.yaml").write_text(changed, "utf-8")
    assert run("check", "tree.yaml").returncode == FINE
    assert run("check", "--strict", "tree.yaml").returncode == FINDINGS


@pytest.mark.parametrize(
    "arguments",
    [
        ("check", "missing.yaml"),
        ("check", "."),
        ("walk", "no-such-tree"),
        ("walk", "missing/tree.yaml"),
        ("walk", LAMP, "--vehicle", "missing.yaml"),
        ("walk", LAMP, "--answers", "missing.yaml"),
        ("resume", "no-such-case"),
        ("report", "no-such-case"),
        ("no-such-command",),
        ("walk",),
        ("check", "--colour"),
    ],
    ids=str,
)
def test_what_cannot_be_done_is_told_on_stderr(run, arguments):
    done = run(*arguments)
    assert done.returncode == CANNOT_RUN
    assert done.stderr
    assert done.stdout == "" or arguments[:2] == ("check", "missing.yaml")


def test_a_tree_with_errors_is_not_walked_and_told_with_its_place(run, tmp_path):
    (tmp_path / "tree.yaml").write_text(lamp_text(("    how: Stand", "    hwo: Stand")), "utf-8")
    done = run("walk", "tree.yaml", "--plain")
    assert done.returncode == CANNOT_RUN
    assert "tree.yaml:70:5" in done.stderr
    assert done.stdout == ""


def test_escape_sequences_cannot_be_in_a_tree(run, tmp_path):
    changed = lamp_text(("title: Reversing lamp", "title: \x1b[31mReversing lamp"))
    (tmp_path / "tree.yaml").write_text(changed, "utf-8")
    done = run("walk", "tree.yaml", "--plain")
    assert done.returncode == CANNOT_RUN
    assert "hidden-character" in done.stderr
    assert "\x1b" not in done.stdout + done.stderr


def test_trees_are_found_by_a_customers_words(run):
    done = run("trees", "cranks", "not", "sometimes")
    assert done.returncode == FINE
    assert done.stdout.startswith("no-crank-intermittent")
    assert run("trees", "zeppelin").returncode == FINDINGS
    assert "ac-clutch-request\n" in run("trees", "--ids").stdout


def test_cases_are_listed_and_reported(run):
    assert "No cases yet" in run("cases").stderr
    run("walk", LAMP, "--plain", "--words", "It stays dark.", typed="12.60\nquit\n")
    (case,) = json.loads(run("cases", "--json").stdout)
    assert (case["tree_id"], case["words"], case["events"]) == ("lamp", "It stays dark.", 2)
    assert case["id"] in run("cases").stdout
    report = run("report", case["id"][-4:])
    assert report.stdout.startswith("# Reversing lamp stays dark\n")
    assert json.loads(run("report", case["id"], "--json").stdout)["stands-at"] == "lamp-seen"


def test_a_damaged_case_is_listed_with_what_is_wrong(run, tmp_path):
    (tmp_path / "data" / "cases" / "2026-01-01-lamp-aaaa").mkdir(parents=True)
    done = run("cases")
    assert done.returncode == FINE
    assert "No such file" in done.stdout
    assert run("report", "aaaa").returncode == CANNOT_RUN
    assert run("resume", "aaaa", "--plain").returncode == CANNOT_RUN


@pytest.mark.parametrize("command", ["cautions", "instruments"])
def test_the_catalogues_are_printed(run, command):
    done = run(command)
    assert done.returncode == FINE
    assert done.stdout


def test_a_spoilt_sheet_of_instruments_is_told_and_left_out(run, tmp_path):
    (tmp_path / "settings").mkdir()
    (tmp_path / "settings" / "instruments.yaml").write_text("format: instruments/1\n")
    done = run("instruments")
    assert done.returncode == FINE
    assert "missing-key" in done.stderr
    assert "usual" in done.stdout.lower()


# ------------------------------------------------------------------------------ answers from a file


def test_a_walk_from_a_file_gives_its_record_as_json(run, tmp_path):
    (tmp_path / "answers.yaml").write_text(ANSWERS, "utf-8")
    done = run("walk", LAMP, "--answers", "answers.yaml", "--json")
    assert (done.returncode, done.stderr) == (FINE, "")
    data = json.loads(done.stdout)
    assert data["stage"] == "closed"
    assert data["conclusion"]["repair"] == "Clean the eyelet"
    assert [v["value"] for v in data["path"] if "value" in v] == [12.6, 12.5, 1.2]
    assert data["record"][0]["event"] == "started"


def test_a_walk_from_a_file_that_has_no_more_answers_says_where_it_stopped(run, tmp_path):
    (tmp_path / "answers.yaml").write_text('answers: {battery-rest: "12.60"}\n', "utf-8")
    done = run("walk", LAMP, "--answers", "answers.yaml", "--json")
    assert done.returncode == FINDINGS
    assert done.stderr == "Stopped at lamp-seen: no answer for it.\n"
    assert json.loads(done.stdout)["stands-at"] == "lamp-seen"


@pytest.mark.parametrize(
    "given", ["battery: 12.6 ohm", "battery: 3 V", "vehicle: {lamp-feed: x, drop-allowed: a lot}"]
)
def test_a_battery_or_vehicle_value_that_is_not_accepted_ends_the_walk(run, tmp_path, given):
    (tmp_path / "answers.yaml").write_text(
        f'{given}\nanswers: {{battery-rest: skip none, lamp-seen: glows dim, feed: "11.00"}}\n'
    )
    done = run("walk", LAMP, "--answers", "answers.yaml")
    assert done.returncode == FINDINGS
    assert "Stopped at feed" in done.stderr


def test_answers_may_be_commands(run, tmp_path):
    (tmp_path / "answers.yaml").write_text(
        'answers:\n  battery-rest: ["12.60"]\n'
        "  lamp-seen: [complaint absent, note wet, lights, close]\n"
    )
    data = json.loads(run("walk", LAMP, "--answers", "answers.yaml", "--json").stdout)
    assert [r["event"] for r in data["record"]] == [
        "started",
        "reading",
        "complaint-changed",
        "note",
        "observation",
    ]


# ------------------------------------------------------------------------------------ quiet starts

HEAVY = ("textual", "pydantic", "ruamel", "yaml", "rich", "platformdirs", "shtab")


@pytest.mark.parametrize("arguments", [("--help",), ("--version",), ("walk", "--help")], ids=str)
def test_help_imports_nothing_heavy(environment, arguments):
    done = subprocess.run(
        [sys.executable, "-X", "importtime", "-m", "faulttree", *arguments],
        capture_output=True,
        text=True,
        env=environment,
        check=True,
    )
    imported = {
        line.rpartition("|")[2].strip().partition(".")[0] for line in done.stderr.splitlines()
    }
    assert imported & {"argparse"}
    assert not imported & set(HEAVY)


def test_checking_imports_no_screen(environment):
    code = (
        "import sys; from faulttree.cli.main import main; main(['check', sys.argv[1]]); "
        "print(sorted({m.partition('.')[0] for m in sys.modules} & {'textual', 'rich'}))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(LAMP)],
        capture_output=True,
        text=True,
        env=environment,
        check=True,
    )
    assert done.stdout == "[]\n"


# ------------------------------------------------------------------------------- strange encodings


def test_an_output_that_cannot_show_a_letter_shows_what_stands_for_it(run):
    done = run("instruments", PYTHONUTF8="0", PYTHONIOENCODING="ascii", LC_ALL="C")
    assert done.returncode == FINE
    assert "+/-(0.5 % + 2 digits)" in done.stdout


def test_bytes_that_are_no_text_do_not_stop_the_program(run):
    done = run(
        "walk", LAMP, "--plain", b"--words", b"caf\xe9", typed=b"12.6\xff\nnote caf\xe9\nquit\n"
    )
    assert done.returncode == FINE
    assert "caf?" in run("cases").stdout


def test_a_reader_that_goes_away_is_no_trouble(environment):
    command = f"{sys.executable} -m faulttree cautions | head -1"
    done = subprocess.run(
        ["bash", "-c", command], capture_output=True, text=True, env=environment, check=True
    )
    assert "Traceback" not in done.stderr
