"""The walks of a fault step by step: how a wrong conclusion is followed back."""

from pathlib import Path

from golden import assert_golden
from proofs import SWAPPED, Changes, cargo_proof, words

from faulttree.render.page import WIDTH
from faulttree.render.proof_paths import names_known, paths_of, suspects_named
from faulttree.render.proof_walks import walks_text

GOLDEN = Path(__file__).parent / "golden"


def _text(name: str, changes: Changes = (), only_ascii: bool = False) -> str:
    proof = cargo_proof(changes)
    return walks_text(proof, suspects_named(proof, name), words(proof.tree, only_ascii))


def test_the_walks_look_as_they_should():
    text = _text("switch", SWAPPED) + _text("plug.series")
    assert_golden(GOLDEN / "proof-walks.txt", text)


def test_a_wrong_conclusion_is_replayed_with_its_readings():
    text = _text("switch.main-open", SWAPPED)
    assert "=> fuse-blown: WRONG, 8 min\n" in text
    assert "0.0000 V ±0.0002 V: nothing -> fuse-look" in text
    assert "battery 12" not in text
    assert "      [! nothing] | 1 V | ! too little | 12 V | + all of it\n" in text
    assert "      whole -> fuse-blown\n" in text


def test_a_proof_that_does_not_hold_is_a_step():
    text = _text("fuse.open", SWAPPED)
    assert "proof does not hold -> not-settled" in text


def test_a_battery_voltage_measured_for_a_step_stands_beside_its_reading():
    asked: Changes = (("    as: battery-voltage\n", ""),)
    assert "battery 12.50 V ±0.08 V: nothing -> fuse-look" in _text("switch.main-open", asked)


def test_a_step_without_the_fault_says_so():
    text = _text("plug.series")
    assert "      the fault is away: lights -> no-fault\n" in text
    assert "   coming and going: every car\n" in text
    assert text.count("the fault is away") == 1


def test_walks_that_go_alike_are_told_once():
    text = _text("plug.series")
    assert "   fault there or coming and going: mild, typical\n" in text
    assert text.count("\n=> ") == len(paths_of(cargo_proof(), _suspect("plug.series"))) == 3


def _suspect(name: str):
    (found,) = suspects_named(cargo_proof(), name)
    return found


def test_names_stand_for_a_fault_an_element_or_healthy_cars():
    proof = cargo_proof()
    assert [s.id for s in suspects_named(proof, "plug")] == ["plug.open", "plug.series"]
    assert suspects_named(proof, "healthy") == (None,)
    assert suspects_named(proof, "plu") == ()
    assert {"healthy", "plug", "plug.series"} <= set(names_known(proof))


def test_no_line_is_wider_than_a_terminal():
    for name in names_known(cargo_proof()):
        for only_ascii in (False, True):
            text = _text(name, only_ascii=only_ascii)
            assert max(map(len, text.splitlines())) <= WIDTH
            assert text.isascii() or not only_ascii
