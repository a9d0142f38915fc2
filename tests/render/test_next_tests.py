"""Next tests in words: what has to be ready, what may cure the fault, what is left."""

from builders import Walk

from faulttree.core.advice.next_test import Leaves, Proposal, Proposals
from faulttree.core.walk.events import Complaint
from faulttree.core.walk.respond import set_complaint
from faulttree.render.next_tests import Advised, about, head, holds, minutes, next_lines, title

STATE = Walk().go("12.60", "glows dim").state


def _proposal(step_id: str, expected: float, regret: float = 0.0, **more) -> Proposal:
    leaves = (
        Leaves("dim", 0.7, {"lamp": 0.5, "fuse": 0.3, "wire": 0.2}, 4.0),
        Leaves("bright", 0.3, {"switch": 1.0}, 0.0),
    )
    given = {"ready": (), "minutes": 3.0, "leaves": leaves, **more}
    return Proposal(step_id, expected=expected, regret=regret, **given)


def _advised(*best: Proposal, own: Proposal | None = None) -> Advised:
    return Advised(Proposals(best, own), "feed", {"trim": "tailgate trim off"})


def _texts(advised: Advised, proposal: Proposal) -> list[str]:
    lines = about(advised, proposal)
    return [f"{line.label}: {line.text}" if line.label else line.text for line in lines]


def test_minutes_name_what_has_to_be_ready_first():
    proposal = _proposal("ground-drop", 9.4, ready=("trim",), minutes=5.0)
    assert _texts(_advised(proposal), proposal) == [
        "5 minutes with what has to be ready first (tailgate trim off), then about 4 minutes more "
        "on average",
        "dim: leaves lamp 50 %, fuse 30 % and 1 other part",
        "bright: leaves only switch",
    ]


def test_it_is_told_by_how_much_the_trees_own_step_takes_more_or_less():
    own = _proposal("feed", 10.0, 4.0)
    for expected, said in (
        (6.0, "the tree's own next step takes about 4 minutes more on average"),
        (9.8, "as quick as the tree's own next step"),
        (11.2, "it takes about 1 minute more on average than the tree's own next step"),
    ):
        proposal = _proposal("ground-drop", expected)
        assert _texts(_advised(proposal, own=own), proposal)[-1] == said


def test_the_head_says_whether_the_trees_own_step_is_as_good():
    best, own = _proposal("ground-drop", 6.0), _proposal("feed", 10.0, 4.0)
    assert head(STATE, _advised(best, own=own)).text.endswith(
        "it takes about 4 minutes more on average than the first one here."
    )
    as_good = _advised(best, own=_proposal("feed", 6.0))
    assert head(STATE, as_good).text.endswith("none is better.")
    assert head(STATE, _advised(best)).text.endswith("it is none of the tests compared here.")
    assert head(STATE, _advised()).text.startswith("No test of this tree tells the parts")
    at_the_end = Advised(Proposals((best,)), "ground-bad", {})
    assert head(STATE, at_the_end).text.startswith("it concludes “")
    assert len(list(next_lines(STATE, _advised()))) == 1


def test_it_is_told_that_all_of_it_rests_on_a_complaint_that_shows():
    walk = Walk()
    assert holds(walk.state).tone == "warning"
    assert holds(walk.state).text.endswith("It is recorded as unknown: see first that it shows.")
    walk.take(set_complaint(walk.state, Complaint.PRESENT))
    assert holds(walk.state).text.endswith("for the complaint as it shows itself.")


def test_a_test_that_disturbs_is_marked():
    proposal = _proposal("ground-drop", 6.0, disturbs=True)
    assert title(STATE, _advised(proposal), proposal) == (
        "Ground of the lamp (may cure what it looks for)"
    )


def test_minutes_are_whole_and_never_none():
    assert [minutes(n) for n in (0.1, 1.4, 1.6)] == ["1 minute", "1 minute", "2 minutes"]
