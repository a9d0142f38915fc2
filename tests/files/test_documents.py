"""Documents: what cannot be used is told with its place, everything at once."""

import hashlib

import pytest
from builders import LAMP, lamp, lamp_text

from faulttree.files.documents import (
    DocumentError,
    check_bytes,
    check_file,
    load_instruments,
    load_tree,
    load_vehicle,
    tree_from_bytes,
)


def _found(*changes):
    """(line text, column, check, message, help) of every problem of the changed tree."""
    report = check_bytes(lamp_text(*changes).encode(), "tree.yaml")
    lines = report.text.split("\n")
    return [(lines[p.line - 1], p.column, p.check, p.message, p.help) for p in report.problems]


def test_a_loaded_tree_keeps_its_bytes_and_their_hash():
    loaded = load_tree(LAMP / "tree.yaml")
    assert loaded.document == lamp()
    assert loaded.data == (LAMP / "tree.yaml").read_bytes()
    assert loaded.hash == hashlib.sha256(loaded.data).hexdigest()


def test_a_missing_key_is_told_at_the_part_that_lacks_it():
    ((line, column, check, message, help),) = _found(
        ("    why: The other half of the circuit.\n", "")
    )
    assert (line, column) == ("  ground-drop:", 3)
    assert (check, message, help) == ("missing-key", "why is missing", "Add why: here.")


def test_a_key_of_the_head_that_is_missing_is_told_at_the_beginning():
    ((_, column, check, message, _),) = _found(("system: lighting\n", ""))
    assert (column, check, message) == (1, "missing-key", "system is missing")


@pytest.mark.parametrize(
    ("old", "new", "key", "meant"),
    [
        ("    how: Stand behind", "    hwo: Stand behind", "hwo", "how"),
        ("system: lighting", "sytem: lighting\nsystem: lighting", "sytem", "system"),
        ("source: shop-notes\n", "source: shop-notes\n    souce: shop-notes\n", "souce", "source"),
        ("set-up: {key: out, ", "set-up: {key: out, enginee: x, ", "enginee", "engine"),
        (
            "{name: sound, is: good, below",
            "{name: sound, is: good, belw: 1 V, below",
            "belw",
            "below",
        ),
        ("{name: bright, is: good", "{name: bright, mean: x, is: good", "mean", "means"),
        ("holds: The lamp follows", "hold: x\n      holds: The lamp follows", "hold", "holds"),
        ("  - name: New switch\n", "  - name: New switch\n        cost: x\n", "cost", "costs"),
        (
            "fails: {go: not-settled}\n    repairs:\n      - name: Clean",
            "fails: {to: x, go: not-settled}\n    repairs:\n      - name: Clean",
            "to",
            "go",
        ),
    ],
)
def test_an_unknown_key_is_told_with_the_nearest_one_of_its_place(old, new, key, meant):
    ((line, column, check, message, help),) = _found((old, new))
    assert line[column - 1 :].startswith(f"{key}:")
    assert (check, message) == ("unknown-key", f"{key} is not a key here")
    assert help in (f"Did you mean {meant}?", "Known here: advice, go.")


@pytest.mark.parametrize(
    ("old", "new", "at", "message", "help"),
    [
        (
            'version: "1.1.0"\n',
            "version: 1.1\n",
            "1.1",
            "version: expected text, found a number",
            'Put it in quotes: "1.1".',
        ),
        (
            'version: "1.1.0"\n',
            'version: "1.1"\n',
            '"1.1"',
            "version: “1.1” does not fit",
            "Write three numbers with points, for example 1.0.0.",
        ),
        (
            "id: lamp\n",
            "id: The Lamp\n",
            "The Lamp",
            "id: “The Lamp” does not fit",
            "Write lower case letters, digits and single hyphens, starting with a letter.",
        ),
        (
            'date: "2026-11-20"',
            'date: "20.11.2026"',
            '"20.11.2026"',
            "date: “20.11.2026” does not fit",
            "Write a date with the year first, for example 2026-11-25.",
        ),
        (
            "key: out, engine",
            "key: off, engine",
            "off",
            "key: “off” is not one of its values",
            "Known here: accessory, out, run, start.",
        ),
        (
            "{name: dim, is: fault",
            "{name: dim, is: bad",
            "bad",
            "is: “bad” is not one of its values",
            "Known here: fault, good, unclear.",
        ),
        (
            "  - The reversing lamp does not light.\n"
            "  - The white light at the back is out on some days.\n",
            "  []\n",
            "[]",
            "complaint: nothing there",
            "Give at least 1.",
        ),
        (
            "cycles: 3}\n\n  ground-bad",
            "cycles: few}\n\n  ground-bad",
            "few",
            "cycles: expected a whole number, found text",
            "",
        ),
        (
            "    minutes: 4\n",
            "    minutes: some\n",
            "some",
            "minutes: expected a number, found text",
            "",
        ),
        (
            "title: Take the bridge out\n",
            f"title: {'long ' * 20}\n",
            "long",
            "title: 99 characters, 60 at most",
            "Shorten it; use how for the rest.",
        ),
    ],
)
def test_a_wrong_value_is_told_at_its_place(old, new, at, message, help):
    ((line, column, check, said, helped),) = _found((old, new))
    assert line[column - 1 :].startswith(at)
    assert (check, said, helped) == ("wrong-value", message, help)


def test_a_wrong_kind_of_step_is_told_with_the_kinds_there_are():
    ((line, _, check, message, help),) = _found(
        ("kind: work-out\n    title: Voltage", "kind: workout\n    title: Voltage")
    )
    assert (line.strip(), check) == ("kind: workout", "wrong-value")
    assert message == "workout is not a kind of step"
    assert "work-out" in help


def test_a_verdict_without_its_parts_is_told_with_all_of_them():
    old = (
        "    part: reversing lamp\n    evidence: [lamp-resistance]\n"
        "    cause: Vibration, or a holder that has run hot.\n"
    )
    ((line, _, check, message, _),) = _found((old, ""))
    assert (line.strip(), check) == ("lamp-open:", "wrong-value")
    assert message.endswith("a fault verdict also needs part, evidence, cause")


def test_a_sum_that_cannot_be_read_is_told_with_what_was_expected():
    ((line, column, check, message, _),) = _found(("below: 0.2 V", "below: 0.2 V +"))
    assert check == "wrong-value"
    assert line[column - 1 :].startswith("0.2 V +")
    assert "stops where a number or a name should follow" in message


def test_the_mark_is_as_long_as_what_is_wrong():
    report = check_bytes(lamp_text(("key: out, engine", "key: off, engine")).encode(), "tree.yaml")
    assert report.problems[0].length == len("off")
    report = check_bytes(lamp_text(("    how: Stand", "    hwo: Stand")).encode(), "tree.yaml")
    assert report.problems[0].length == len("hwo")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "the document holds no keys"),
        ("- a\n- b\n", "the document holds no keys"),
        ("title: x\n", "format is missing"),
        ("format: tree/9\n", "unknown format tree/9"),
        ("format: [tree/1]\n", "unknown format ['tree/1']"),
        ("format: {a: b}\n", "unknown format {'a': 'b'}"),
        ("format: 1\n", "unknown format 1"),
    ],
)
def test_a_document_that_does_not_say_what_it_is_is_told(text, message):
    (problem,) = check_bytes(text.encode(), "x.yaml").problems
    assert (problem.check, problem.message) == ("unknown-format", message)


def test_a_document_of_another_kind_is_refused_where_a_tree_is_wanted():
    with pytest.raises(DocumentError) as told:
        load_tree(LAMP / "vehicle.yaml")
    assert "VehicleSheet, not tree/1" in told.value.problems.problems[0].message
    with pytest.raises(DocumentError):
        load_vehicle(LAMP / "tree.yaml")


@pytest.mark.parametrize("data", [b"\xff\xfe", b"a: [", b"a: b\na: c\n", b"x: \x1b[31m"])
def test_what_is_no_yaml_is_told_and_never_a_crash(data):
    assert check_bytes(data, "x.yaml").has_errors
    with pytest.raises(DocumentError):
        tree_from_bytes(data, "x.yaml")


def test_a_file_that_cannot_be_read_is_a_problem_of_its_own(tmp_path):
    (problem,) = check_file(tmp_path / "missing.yaml").problems
    assert problem.check == "unreadable-file"
    assert check_file(tmp_path).problems[0].check == "unreadable-file"


def test_a_sheet_is_held_against_the_trees_in_its_folder(tmp_path):
    (tmp_path / "tree.yaml").write_bytes((LAMP / "tree.yaml").read_bytes())
    sheet = tmp_path / "vehicle.yaml"
    sheet.write_text((LAMP / "vehicle.yaml").read_text("utf-8").replace("1.75 A", "21 V"), "utf-8")
    (problem,) = check_file(sheet).problems
    assert (problem.check, problem.help) == ("vehicle-value", "The tree lamp asks for current.")
    (tmp_path / "tree.yaml").unlink()
    assert check_file(sheet).problems == ()


def test_instruments_of_the_shop_are_read(tmp_path):
    sheet = tmp_path / "instruments.yaml"
    sheet.write_text(
        "format: instruments/1\ninstruments:\n"
        "  - {id: own-meter, name: Own meter, class: meter, load: 10 Mohm, functions: {voltage: ["
        "{up-to: 60 V, resolution: 0.01 V, accuracy: 1 % + 1 digits}]}}\n"
    )
    (own,) = load_instruments(sheet).document.instruments
    assert own.name == "Own meter"
