"""`faulttree prove`: exit codes, what is told where, and the forms of output."""

import json
from xml.etree import ElementTree as Xml

import pytest
from builders import LAMP
from proofs import ALARMING, CARGO, SWAPPED, write_cargo

FINE, FINDINGS, CANNOT_RUN = 0, 1, 2


def test_a_sound_tree_is_proved(run):
    done = run("prove", CARGO)
    assert (done.returncode, done.stderr) == (FINE, "")
    assert done.stdout.startswith("cargo-lamp 1.0.0: proved\n")
    assert run("prove", CARGO / "tree.yaml").stdout == done.stdout


def test_a_tree_is_known_by_its_id(run, tmp_path):
    write_cargo(tmp_path / "data" / "trees" / "cargo-lamp")
    assert run("prove", "cargo-lamp").returncode == FINE


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        (SWAPPED, "switch.main-open"),
        (ALARMING, "may end in a false alarm"),
        ((("isolation: 80 %", "isolation: 90 %"),), "the bench sheet wants 90.0 %"),
    ],
)
def test_a_wrong_tree_is_a_finding(run, tmp_path, changes, told):
    done = run("prove", write_cargo(tmp_path / "wrong", changes))
    assert done.returncode == FINDINGS
    assert "not proved" in done.stdout
    assert told in " ".join(done.stdout.split())


def test_a_folder_is_searched_and_a_tree_without_a_circuit_does_not_fail_it(run, tmp_path):
    write_cargo(tmp_path / "all" / "one")
    lamp = tmp_path / "all" / "two"
    lamp.mkdir()
    (lamp / "tree.yaml").write_bytes((LAMP / "tree.yaml").read_bytes())
    done = run("prove", "all")
    assert done.returncode == FINE
    assert done.stdout.startswith("cargo-lamp 1.0.0: proved\n")
    (line,) = done.stderr.splitlines()
    assert "tree.yaml names no circuit model" in line


def test_one_wrong_tree_among_several_is_a_finding(run, tmp_path):
    write_cargo(tmp_path / "all" / "one")
    other = ("id: cargo-lamp\nversion", "id: other-lamp\nversion")
    named = ("tree: cargo-lamp", "tree: other-lamp")
    folder = write_cargo(tmp_path / "all" / "two", (*SWAPPED, named))
    tree = folder / "tree.yaml"
    tree.write_text(tree.read_text("utf-8").replace(*other), "utf-8")
    done = run("prove", "all")
    assert done.returncode == FINDINGS
    assert "cargo-lamp 1.0.0: proved\n" in done.stdout
    assert "\nother-lamp 1.0.0: not proved" in done.stdout


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        ((LAMP,), "names no circuit model"),
        ((LAMP / "tree.yaml",), "names no circuit model"),
        (("no-such-tree",), "No tree is called"),
        (("empty",), "empty holds no tree"),
        ((CARGO, "--vehicle", "missing.yaml"), "missing.yaml"),
        ((CARGO, "--show", "plug.serie"), "Did you mean plug.series?"),
        ((CARGO, "--show", "plug", "--junit"), "--show goes with the text or with --json"),
        ((CARGO, "--json", "--junit"), "not allowed with"),
        ((), "required"),
    ],
    ids=str,
)
def test_what_cannot_be_done_is_told_on_stderr(run, tmp_path, arguments, told):
    (tmp_path / "empty").mkdir()
    done = run("prove", *arguments)
    assert done.returncode == CANNOT_RUN
    assert told in done.stderr
    if "plug.serie" not in arguments:
        assert done.stdout == ""


def test_what_is_missing_beside_a_good_tree_still_counts(run):
    done = run("prove", CARGO, "no-such-tree")
    assert done.returncode == CANNOT_RUN
    assert done.stdout.startswith("cargo-lamp 1.0.0: proved\n")


@pytest.mark.parametrize("name", ["tree", "circuit", "bench"])
def test_a_document_with_errors_is_told_with_its_place(run, tmp_path, name):
    folder = write_cargo(tmp_path / "broken")
    path = folder / f"{name}.yaml"
    path.write_text(path.read_text("utf-8").replace('version: "1.0.0"', "versoin: x", 1), "utf-8")
    done = run("prove", "broken")
    assert done.returncode == CANNOT_RUN
    assert f"{name}.yaml:" in done.stderr
    assert "versoin" in done.stderr
    assert done.stdout == ""


def test_a_missing_bench_sheet_is_told_in_one_sentence(run, tmp_path):
    folder = write_cargo(tmp_path / "half")
    (folder / "bench.yaml").unlink()
    done = run("prove", "half")
    assert (done.returncode, done.stdout) == (CANNOT_RUN, "")
    assert "cargo-lamp" in done.stderr


def test_the_walks_of_a_fault_take_the_place_of_the_figures(run, tmp_path):
    folder = write_cargo(tmp_path / "wrong", SWAPPED)
    done = run("prove", folder, "--show", "switch.main-open")
    assert done.returncode == FINDINGS
    assert done.stdout.startswith("switch.main-open: ")
    assert "=> fuse-blown: WRONG" in done.stdout
    assert "Figures" not in done.stdout


def test_json_is_data_alone(run, tmp_path):
    folder = write_cargo(tmp_path / "wrong", SWAPPED)
    done = run("prove", CARGO, folder, "--json", "--show", "switch")
    assert done.returncode == FINDINGS
    first, second = json.loads(done.stdout)["trees"]
    assert (first["proved"], second["proved"]) == (True, False)
    assert {w["fault"] for w in second["walks"]} == {"switch.main-open", "switch.main-stuck"}


def test_junit_is_xml_alone(run, tmp_path):
    done = run("prove", write_cargo(tmp_path / "wrong", SWAPPED), "--junit")
    assert done.returncode == FINDINGS
    top = Xml.fromstring(done.stdout)
    assert top.get("failures") == "2"


def test_a_terminal_without_all_letters_gets_others(run):
    done = run("prove", CARGO, "--show", "plug", PYTHONUTF8="0", PYTHONIOENCODING="latin-1")
    assert done.stdout.isascii()
    assert "+/-" in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 80


def test_readings_are_those_of_the_instruments_of_ones_own(run, tmp_path):
    (tmp_path / "settings").mkdir()
    (tmp_path / "settings" / "instruments.yaml").write_text(
        "format: instruments/1\ninstruments:\n  - id: needle\n    name: Old needle meter\n"
        "    class: meter\n    load: 20 kohm for each volt\n    functions:\n      voltage:\n"
        "        - {up-to: 30 V, resolution: 0.2 V, accuracy: 3 % of full scale}\n"
        "      resistance:\n"
        "        - {up-to: 1 Mohm, resolution: 1 ohm, accuracy: 5 %}\n",
        "utf-8",
    )
    done = run("prove", CARGO)
    assert done.returncode == FINDINGS, done.stdout + done.stderr
    assert "Read with your own: Old needle meter\n" in done.stdout
    assert "Edges within the error of a reading" in done.stdout


@pytest.mark.parametrize("command", ["prove", "expect"])
def test_help_names_every_option(run, command):
    done = run(command, "--help")
    assert done.returncode == FINE
    assert "--vehicle" in done.stdout
    assert "--json" in done.stdout
