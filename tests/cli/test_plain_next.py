"""The best next tests line by line: `next` lists them, `next 1` asks one, `return` goes back."""

import io
from pathlib import Path

from lamp_circuit import at_feed

from faulttree.cli.plain import PlainWalk
from faulttree.files import cases
from faulttree.session import Session


def _said(session: Session, *lines: str) -> str:
    """What the walk says to some lines; its questions are left out."""
    left, out = iter(lines), io.StringIO()
    PlainWalk(session, lambda _ask, _question: next(left, None), out).run()
    return out.getvalue()


def _words(session: Session, *lines: str) -> str:
    return " ".join(_said(session, *lines).split())


def test_next_lists_the_tests_with_what_each_outcome_would_mean(tmp_path: Path) -> None:
    said = _words(at_feed(tmp_path), "next")
    assert "The tree's own next step: “Feed at the lamp, lamp in place”: it takes about" in said
    assert "1 Ground of the lamp 2 minutes, then about 1 minute more on average" in said
    assert "lossy: leaves only ground of the lamp" in said
    assert "next and a number asks that test now, aside from the tree." in said


def test_a_number_asks_the_test_with_its_head_and_the_tree_goes_on_afterwards(
    tmp_path: Path,
) -> None:
    said = _said(at_feed(tmp_path), "next 1", "0.05")
    aside = said.partition("Aside: Ground of the lamp  [ground-drop]")[2]
    assert "which waits at “Feed at the lamp, lamp in place”" in aside
    assert "Red lead: cavity 2 of H7" in aside
    assert "0.05 V ±0.005 V: + sound. The ground carries the current." in aside
    assert "Taken aside. The tree goes on; next tells the best test now." in aside
    assert "Step 3: Feed at the lamp, lamp in place  [feed]" in aside


def test_return_back_and_skip(tmp_path: Path) -> None:
    session = at_feed(tmp_path)
    said = _said(session, "next 1", "return", "next 1", "back", "return", "next 1", "skip rusted")
    assert said.count("Aside: Ground of the lamp") == 3
    assert said.count("Step 3: Feed") == 4
    assert "This is the tree's own step." in said
    assert session.state.answers["ground-drop"].reason == "rusted"


def test_a_number_that_is_none_is_told_and_the_question_stands(tmp_path: Path) -> None:
    session = at_feed(tmp_path)
    assert "next and one of their numbers takes it" in _words(session, "next 9", "next feed")
    assert session.ask.step_id == "feed"


def test_without_a_bench_sheet_it_is_one_sentence(tmp_path: Path) -> None:
    session = at_feed(tmp_path)
    (session.folder / cases.BENCH).unlink()
    said = _words(session, "next", "next 1")
    assert said.count("in its folder, so the next test cannot be worked out") == 2
