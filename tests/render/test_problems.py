"""Problems as an author reads them: place, source line, mark, and one thing to do."""

from builders import lamp_text

from faulttree.core.problem import FileProblems, Place, Problem
from faulttree.files.documents import check_bytes
from faulttree.render.problems import problems_as_text, summary


def test_a_problem_shows_its_line_with_a_mark_under_what_is_meant():
    report = check_bytes(lamp_text(("    how: Stand", "    hwo: Stand")).encode(), "lamp/tree.yaml")
    assert problems_as_text([report]) == (
        "error[unknown-key]: hwo is not a key here\n"
        "  --> lamp/tree.yaml:70:5\n"
        "    |\n"
        " 70 |     hwo: Stand behind the car, a second person at the gear lever.\n"
        "    |     ^^^\n"
        "   = help: Did you mean how?\n\n"
    )


def test_no_problems_are_no_text():
    assert problems_as_text([FileProblems("a", "", ())]) == ""


def test_a_problem_without_a_line_shows_the_file_alone():
    problem = Problem("unreadable-file", "error", "cannot be read", 0, 0)
    assert problems_as_text([FileProblems("a.yaml", "", (problem,))]) == (
        "error[unreadable-file]: cannot be read\n  --> a.yaml\n\n"
    )


def test_a_second_place_is_named():
    place = Place(1, 1, "first here")
    problem = Problem("duplicate-key", "error", "twice", 2, 1, also=(place,))
    text = problems_as_text([FileProblems("a.yaml", "a: 1\na: 2\n", (problem,))])
    assert "   also a.yaml:1:1 first here\n" in text


def test_a_very_long_line_is_shown_around_the_mark():
    line = "x" * 500 + "here" + "y" * 500
    problem = Problem("yaml-syntax", "error", "m", 1, 501, length=4)
    shown, mark = problems_as_text([FileProblems("a", line, (problem,))]).split("\n")[3:5]
    assert len(shown) < 120
    assert shown[mark.index("^") :].startswith("here")
    assert mark.count("^") == 4


def test_characters_that_could_command_a_terminal_are_question_marks():
    problem = Problem("yaml-syntax", "error", "bad \x1b[31m word", 1, 1)
    text = problems_as_text([FileProblems("a\x07b", "line \x1b[2J\u202e", (problem,))])
    assert not {"\x1b", "\x07", "\u202e"} & set(text)


def test_the_summary_counts():
    problems = (
        Problem("a", "error", "m", 1, 1),
        Problem("b", "warning", "m", 1, 1),
        Problem("c", "warning", "m", 1, 1),
    )
    files = [FileProblems("a", "", problems), FileProblems("b", "", ())]
    assert summary(files) == "2 files checked: 1 error, 2 warnings"
