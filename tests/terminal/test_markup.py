"""What is written in trees and by people is shown letter by letter; it never acts."""

from pathlib import Path

import pytest
from builders import lamp_text
from program import Start, state_of

from faulttree.files import places

TITLE = "[key on] [link=http://x]rest[/link]"
QUIT = "[@click=app.quit]flat[/]"
WORDS = "[b]dark[/b] [@click=app.quit]lamp[/] [link=http://x]"


@pytest.fixture
def hostile(tmp_path: Path) -> Path:
    """The example tree with markup in its titles, bands and outcomes."""
    path = tmp_path / "hostile.yaml"
    path.write_text(
        lamp_text(
            ("title: Battery voltage at rest", f"title: '{TITLE}'"),
            ("{name: flat, is: fault", f"{{name: '{QUIT}', is: fault"),
            ("- {name: glows dim,", "- {name: '[@click=app.quit]dim[/]',"),
            ("title: Reversing lamp stays dark", "title: '[reverse]Lamp[/] [link=http://x]'"),
        ),
        "utf-8",
    )
    return path


def test_markup_in_a_tree_is_shown_and_clicked_without_effect(start: Start, hostile: Path):
    program = start("walk", str(hostile), "--words", WORDS, "--vehicle", "none")
    program.wait_for("Before you begin")
    program.type("\r")
    program.wait_for(TITLE, QUIT[:20])
    _click(program, 10)
    _click(program, program.text.split("\n").index(next(_lines_with(program, "[@click"))))
    program.settle()
    program.type("12.60\r")
    program.wait_for("[@click=app.quit]dim[/]")
    program.type("n")
    program.wait_for("Enter records it")
    program.type(WORDS + "\r")
    program.wait_for("Step 2")
    program.type("r")
    program.wait_for("faulttree report")
    program.type("\x11")
    assert program.wait_for_end() == 0
    (case,) = places.cases_folder().iterdir()
    events = state_of(case.name).events
    assert events[-1].text == WORDS  # type: ignore[union-attr]


def test_markup_in_the_customers_words_and_titles_is_shown_at_home(start: Start, hostile: Path):
    own = places.own_trees() / "hostile"
    own.mkdir(parents=True)
    hostile.rename(own / "tree.yaml")
    program = start()
    program.wait_for("what does the customer say?")
    program.type("[link=http://x] lamp")
    program.wait_for("[link=http://x] lamp", "[reverse]Lamp[/] [link=http://x]")
    program.type("\x11")
    assert program.wait_for_end() == 0


def test_characters_that_command_a_terminal_are_shown_as_question_marks(start: Start):
    program = start("walk", "blower-some-speeds", "--car", "x\x1b]0;owned\x07y\x9b31mz")
    program.wait_for("Before you begin")
    program.type("\rr")
    program.wait_for("faulttree report")
    program.type("\x1b[6~" * 2)
    program.settle()
    assert b"\x1b]0;owned" not in program.raw
    assert b"\x9b31m" not in program.raw
    assert b"\xc2\x9b" not in program.raw


def _click(program, row: int) -> None:
    for end in "Mm":
        program.type(f"\x1b[<0;20;{row + 1}{end}")


def _lines_with(program, text: str):
    return (line for line in program.text.split("\n") if text in line)
