"""A draft made from the best order: it has no errors, and it holds when it is proved."""

import os

import pytest
from orders import REFERRING, SHARED, cargo_draft, cargo_order
from proofs import Changes, write_cargo

from faulttree.core.advice.draft import CannotDraft
from faulttree.core.advice.drafting import draft_of
from faulttree.core.order.plan import End
from faulttree.core.proof.measures import measures_of
from faulttree.core.proof.set_up import set_up
from faulttree.core.proof.tree_proof import prove
from faulttree.core.tree import Conclude, Measure
from faulttree.files.benches import OnBench, open_bench
from faulttree.files.documents import check_file
from faulttree.files.drafts import CHANGE, Written, write_draft

DAY = "2027-01-02"
UNNAMED: Changes = (("names: [fuse, lamp.shorted]", "names: [fuse]"),)
"""No verdict names the fuse and the shorted bulb, which the order cannot tell apart."""


def _drafted(tmp_path, changes: Changes = ()) -> tuple[Written, OnBench]:
    author = open_bench(write_cargo(tmp_path / "author", changes) / "tree.yaml")
    written = write_draft(author, cargo_draft(changes), tmp_path / "new" / "tree.yaml", DAY)
    return written, open_bench(written.paths[0])


@pytest.mark.parametrize("changes", [(), SHARED, REFERRING, UNNAMED])
def test_a_draft_has_no_errors(tmp_path, changes):
    written, _ = _drafted(tmp_path, changes)
    assert [p.name for p in written.paths] == ["tree.yaml", "tree-bench.yaml", "tree-circuit.yaml"]
    for path in written.paths:
        assert not check_file(path).has_errors
    assert not list(written.paths[0].parent.glob(".*"))


@pytest.mark.parametrize("changes", [(), SHARED])
def test_a_draft_is_proved_and_takes_the_minutes_of_its_order(tmp_path, changes):
    _, opened = _drafted(tmp_path, changes)
    bench, _ = found = set_up(
        opened.tree.document, opened.circuit.document, opened.sheet.document, None
    )
    measures = measures_of(prove(*found))
    assert (measures.wrong, measures.detected, measures.false_alarms[0]) == (0.0, 1.0, 0)
    best = cargo_order(changes).compared.best
    if not changes:
        assert measures.worst_minutes == best.spent.worst
    assert bench.tree.id == "cargo-lamp-draft"


def test_the_head_says_what_it_is(tmp_path):
    _, opened = _drafted(tmp_path)
    tree = opened.tree.document
    author = cargo_order().bench.tree
    assert (tree.version, tree.title, tree.needs) == ("0.1.0", author.title, author.needs)
    (change,) = tree.changes
    assert (change.version, change.date, change.text) == ("0.1.0", DAY, CHANGE)


def test_a_test_at_two_places_is_two_steps_and_every_other_exit_settles_nothing(tmp_path):
    _, opened = _drafted(tmp_path)
    steps = opened.tree.document.steps
    assert steps["ground-drop"].title == steps["ground-drop-2"].title
    seen = steps["seen"]
    assert {each.name: each.go for each in seen.outcomes}["lights"] == "no-fault"
    assert steps["switch-feed"].cannot.go == "not-settled"  # an unresolved one of the author
    assert steps["lamp-feed"].cannot.go == "not-settled-here"  # led to a test before
    assert "battery-rest" not in steps


def test_what_no_verdict_names_ends_unresolved_with_the_parts_named(tmp_path):
    _, opened = _drafted(tmp_path, UNNAMED)
    left = opened.tree.document.steps["left-open"]
    assert isinstance(left, Conclude)
    assert left.result == "unresolved"
    assert "bulb; fuse" in left.finding


def test_a_reading_that_a_band_refers_to_is_taken_before(tmp_path):
    draft = cargo_draft(REFERRING)
    assert draft.put_in == ("switch-feed",)
    _, opened = _drafted(tmp_path, REFERRING)
    copies = [s for n, s in opened.tree.document.steps.items() if n.startswith("switch-feed")]
    assert len(copies) > 1
    assert all(isinstance(s, Measure) and s.as_ == "switch-feed" for s in copies)


def test_beside_the_author_s_tree_the_circuit_is_shared(tmp_path):
    folder = write_cargo(tmp_path / "author")
    author = open_bench(folder / "tree.yaml")
    written = write_draft(author, cargo_draft(), folder / "draft.yaml", DAY)
    assert [path.name for path in written.paths] == ["draft.yaml", "draft-bench.yaml"]
    assert not any(check_file(path).has_errors for path in folder.glob("*.yaml"))


@pytest.mark.parametrize("name", ["tree.yaml", "tree-bench.yaml", "tree-circuit.yaml"])
def test_nothing_is_overwritten(tmp_path, name):
    author = open_bench(write_cargo(tmp_path / "author") / "tree.yaml")
    folder = tmp_path / "new"
    folder.mkdir()
    (folder / name).write_text("mine\n", "utf-8")
    with pytest.raises(CannotDraft, match="is there already"):
        write_draft(author, cargo_draft(), folder / "tree.yaml", DAY)
    assert os.listdir(folder) == [name]
    assert (folder / name).read_text("utf-8") == "mine\n"


def test_a_plan_without_a_test_is_no_tree():
    result = cargo_order()
    with pytest.raises(CannotDraft, match="no tree to draft"):
        draft_of(result.bench, result.ends, End({}))
