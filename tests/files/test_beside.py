"""Documents that name each other are found in one folder, and only where they are asked for."""

import subprocess
import sys
from pathlib import Path

import pytest
from builders import LAMP

from faulttree.files.documents import DocumentError, check_bytes, check_file, load_bench, load_tree

EXAMPLE = Path(__file__).parents[1] / "data" / "bench"


@pytest.fixture
def folder(tmp_path):
    for path in EXAMPLE.glob("*.yaml"):
        (tmp_path / path.name).write_bytes(path.read_bytes())
    return tmp_path


def _change(path, old, new):
    text = path.read_text("utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), "utf-8")


def _told(path):
    return [(p.check, p.message, p.help) for p in check_file(path).problems]


def test_a_sheet_whose_circuit_is_missing_is_told_that_once_and_held_to_the_rest(folder):
    (folder / "circuit.yaml").unlink()
    _change(folder / "bench.yaml", "names: [lamp]", "names: [lmp]")
    _change(folder / "bench.yaml", "  fuse-feed: {}", "  fuse-fed: {}")
    missing = "no circuit model called gate-lamp lies in this folder"
    assert _told(folder / "bench.yaml") == [
        ("not-beside", missing, "Put the circuit model there."),
        ("unknown-step", "the tree has no step fuse-fed", "Did you mean fuse-feed?"),
    ]
    assert _told(folder / "tree.yaml") == [
        ("not-beside", missing, "Put the circuit model there."),
    ]


def test_a_sheet_alone_is_told_that_both_are_missing_and_what_can_be_told_without(folder):
    for name in ("tree", "circuit"):
        (folder / f"{name}.yaml").unlink()
    _change(folder / "bench.yaml", "isolation: 40 %", "isolation: 140 %")
    checks = [check for check, _, _ in _told(folder / "bench.yaml")]
    assert checks == ["not-beside", "not-beside", "bench-amount"]


def test_a_tree_is_told_that_its_sheet_is_missing_or_there_twice(folder):
    (folder / "more.yaml").write_bytes((folder / "bench.yaml").read_bytes())
    ((check, message, _),) = _told(folder / "tree.yaml")
    assert (check, message) == (
        "not-beside",
        "bench.yaml and more.yaml are each a bench sheet of this tree",
    )
    for name in ("more", "bench"):
        (folder / f"{name}.yaml").unlink()
    ((_, message, help),) = _told(folder / "tree.yaml")
    assert message == "no bench sheet with tree: gate-lamp-dark lies in this folder"
    assert "docs/bench-format.md" in help


def test_two_models_of_one_id_are_told_where_they_are_named(folder):
    (folder / "more.yaml").write_bytes((folder / "circuit.yaml").read_bytes())
    ((check, message, _),) = _told(folder / "bench.yaml")
    assert check == "not-beside"
    assert message == "circuit.yaml and more.yaml are each the circuit model gate-lamp"


def test_a_document_that_has_errors_is_named_with_what_to_do(folder):
    _change(folder / "circuit.yaml", "power: 21 W", "power: 21 V")
    told = _told(folder / "bench.yaml")
    help = "Mend it first; faulttree check circuit.yaml tells what is wrong."
    assert told == [("not-beside", "circuit.yaml has errors", help)]


def test_everything_that_is_wrong_with_a_sheet_is_told_at_once(folder):
    sheet = folder / "bench.yaml"
    _change(sheet, "{light: lamp, below: 5 %}", "{light: lamp, below: 5 V}")
    _change(sheet, "names: [ground]", "names: [grund]")
    _change(sheet, "  battery negative post: battery-negative\n", "")
    checks = [check for check, _, _ in _told(sheet)]
    assert checks == ["lead-place", "bench-amount", "unknown-fault"]
    first = check_file(sheet).problems[0].message
    assert (
        first == "no node is given for “battery negative post”, a lead of battery-rest and 3 more"
    )


def test_a_tree_is_walked_without_a_look_at_what_lies_beside_it(folder, monkeypatch):
    for name in ("circuit", "bench"):
        (folder / f"{name}.yaml").unlink()
    opened = []
    read = Path.read_bytes
    monkeypatch.setattr(Path, "read_bytes", lambda path: opened.append(path.name) or read(path))
    assert load_tree(folder / "tree.yaml").document.circuit == "gate-lamp"
    assert opened == ["tree.yaml"]


def test_a_sheet_is_loaded_against_the_tree_and_the_model_that_are_given(folder):
    tree = load_tree(folder / "tree.yaml").document
    assert load_bench(folder / "bench.yaml", tree).document.tree == tree.id
    _change(folder / "bench.yaml", "  fuse-feed: {}", "  fuse-fed: {}")
    load_bench(folder / "bench.yaml")
    with pytest.raises(DocumentError):
        load_bench(folder / "bench.yaml", tree)


def test_the_shape_of_a_sheet_is_told_from_its_bytes_alone():
    text = (EXAMPLE / "bench.yaml").read_text("utf-8")
    assert check_bytes(text.encode(), "x").problems == ()
    (problem,) = check_bytes(text.replace("{of: housing}", "{off: housing}").encode(), "x").problems
    assert (problem.check, problem.help) == ("unknown-key", "Did you mean of?")


@pytest.mark.parametrize(
    ("path", "loaded"),
    [
        (LAMP / "tree.yaml", "False False False"),
        (EXAMPLE / "tree.yaml", "False False False"),
        (EXAMPLE / "bench.yaml", "True True False"),
    ],
    ids=["no circuit", "a circuit", "a bench sheet"],
)
def test_only_a_bench_sheet_loads_circuits_and_nothing_loads_arrays(path, loaded):
    code = (
        "import sys, pathlib\n"
        "from faulttree.files.documents import check_file\n"
        f"check_file(pathlib.Path({str(path)!r}))\n"
        "print(*(any(m.startswith(n) for m in sys.modules) for n in "
        "('faulttree.core.circuit', 'faulttree.core.bench', 'numpy')))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert (done.stdout.strip(), done.stderr) == (loaded, "")
