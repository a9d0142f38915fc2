"""A proof as text: verdict, figures, picture, table and advice, in 80 columns."""

import re
from pathlib import Path

import pytest
from golden import assert_golden
from proofs import ALARMING, SWAPPED, Changes, cargo_proof, result

from faulttree.core.proof.measures import measures_of
from faulttree.render.page import WIDTH
from faulttree.render.proof_text import proof_text, verdict

GOLDEN = Path(__file__).parent / "golden"
UNGROUPED: Changes = (("    faults: [fuse, lamp]\n", "    faults: [plug, lamp]\n"),)
TOO_MUCH: Changes = (("isolation: 80 %", "isolation: 90 %"),)
CLOSE: Changes = (("below: 0.5 V, go: ground-drop", "below: 3.06 V, go: ground-drop"),)
"""The plug's loss, mild at the weak battery, reads 3.06 V: with the error it lies in both bands."""
VARIANTS = {
    "sound": (),
    "swapped": SWAPPED,
    "alarming": ALARMING,
    "ungrouped": UNGROUPED,
    "wanting": TOO_MUCH,
    "close": CLOSE,
}


@pytest.mark.parametrize("name", ["sound", "swapped"])
def test_the_whole_text_looks_as_it_should(name):
    assert_golden(GOLDEN / f"proof-{name}.txt", proof_text(result(VARIANTS[name])))


@pytest.mark.parametrize("changes", VARIANTS.values(), ids=VARIANTS)
@pytest.mark.parametrize("only_ascii", [False, True])
def test_no_line_is_wider_than_a_terminal(changes, only_ascii):
    text = proof_text(result(changes, only_ascii))
    assert max(map(len, text.splitlines())) <= WIDTH
    assert text.isascii() or not only_ascii
    assert not any(line.endswith(" ") for line in text.splitlines())


def test_the_figures_are_those_that_a_hand_works_out():
    """Weights of tests/data/proof/circuit.yaml, the mild ground of weight 3 / 3 left out.

    Counted are 2 + 1 + 2 + 5 + 3 + 0.5 + 1.5 + 2 = 17, and fuse and shorted bulb, 2.5 of them,
    are left as a group of two.
    """
    found = measures_of(cargo_proof())
    assert found.isolated == pytest.approx(14.5 / 17)
    assert found.group_size == pytest.approx((14.5 + 2 * 2.5) / 17)
    text = proof_text(result())
    assert "fault isolation to 1 part    85.3 %" in text
    assert "to 2 parts                100.0 %  or fewer: 14.7 % more" in text
    assert "ambiguity group size           1.15" in text
    assert "faults isolated              6 of 9" in text


def test_swapped_branches_are_told_first_and_by_name():
    text = proof_text(result(SWAPPED))
    assert "not proved: 1 fault may end in a wrong conclusion" in text.splitlines()[0]
    picture = text[text.index("Where the faults may end") :].splitlines()
    assert picture[1] == "  WRONG"
    assert picture[2].split()[0] == "fuse-blown"
    assert picture[2].endswith("switch.main-open")
    assert "switch-bad: fuse.open, lamp.shorted" in text


def test_a_false_alarm_is_told():
    found = result(ALARMING)
    assert "false alarm" in verdict(found)
    assert "false alarms                 3 of 3" in proof_text(found)


def test_too_little_isolation_is_told_with_what_is_wanted():
    assert verdict(result(TOO_MUCH)) == (
        "not proved: 85.3 % isolated, the bench sheet wants 90.0 %"
    )


def test_a_group_that_tests_tell_apart_is_advice():
    assert "but fuse and bulb can be told apart by switch-feed and filament" in proof_text(result())


def test_a_verdict_on_several_parts_without_a_group_is_told():
    text = proof_text(result(UNGROUPED))
    below = text[text.index("Verdicts on several parts that no group holds") :]
    assert "fuse-blown: fuse; bulb" in below


def test_idle_tests_and_steps_never_reached_are_listed():
    text = proof_text(result())
    assert "every car goes the same way from there\n  battery-rest, filament\n" in text
    assert "Steps that no car comes to\n  not-settled\n" in text


def test_words_of_documents_are_data():
    odd: Changes = (("words: plug of the lamp", 'words: "[bold]plug[/] {x} %s `é` Ω"'),)
    assert "  [bold]plug[/] {x} %s `é` Ω\n" in proof_text(result(odd))
    assert "  [bold]plug[/] {x} %s `?` ohm\n" in proof_text(result(odd, only_ascii=True))


def test_what_some_of_the_cars_end_in_stands_below_their_fault():
    lines = proof_text(result(CLOSE)).splitlines()
    at = next(i for i, line in enumerate(lines) if "plug.series   " in line)
    assert lines[at].endswith("plug-bad: named")
    assert lines[at + 1] == "      or not-settled: not isolated (mild)"


def test_an_edge_within_the_error_is_told_with_its_car():
    text = proof_text(result(CLOSE))
    head = "Edges within the error of a reading (distance in standard uncertainties)\n"
    assert (
        head + ("   0.0  plug-loss: 3.059 V at 3.06 V (small | large), plug.series mild at weak\n")
        in text
    )
    assert head not in proof_text(result())


def test_a_wrong_end_of_cars_that_do_not_count_has_no_share():
    """A complaint that no car shows leaves none that counts; the wrong end is told all the same."""
    complaint = "light: lamp, below: 75 % of normal}\ntests"
    unsure: Changes = (*SWAPPED, (complaint, "current: lamp, below: -1 A}\ntests"))
    text = proof_text(result(unsure))
    assert re.search(r"^    fuse-blown +-  switch.main-open$", text, re.MULTILINE)
    assert "false isolation; see WRONG below" in text
    assert "      fuse-blown: WRONG (without the complaint)\n" in text
