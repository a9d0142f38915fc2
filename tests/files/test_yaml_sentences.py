"""The reader's own errors in an author's words: one slip of the pen each, with both readers."""

import pytest

from faulttree.core.problem import Problem
from faulttree.files.yaml_errors import CHECKS, YamlError
from faulttree.files.yaml_sentences import ReaderTrouble, explain
from faulttree.files.yaml_source import parse_yaml


def only_problem(text: str) -> Problem:
    with pytest.raises(YamlError) as caught:
        parse_yaml(text.encode())
    (found,) = caught.value.problems
    return found


SLIPS = [
    # text, line, column, words of the message, words of the help
    ("a:\n\tb: 1\n", 2, 1, "a tab stands", "spaces"),
    ("a:\n  b: 1\n\tc: 2\n", 3, 1, "a tab stands", "spaces"),
    ("a: |\n\tx\n", 2, 1, "a tab stands", "spaces"),
    ("title: Feed: at the relay\n", 1, 12, "second colon", "quotes round"),
    ("x:\n  - a: b: c\n", 2, 9, "second colon", "quotes round"),
    ("a: {name}: x\n", 1, 10, "second colon", "quotes round"),
    ("a:1\nb: 2\n", 2, 1, "no space after its colon", "space after the colon"),
    ("key: value\n  more: x\n", 2, 3, "no key here", "indent"),
    ("--- a: 1\n", 1, 1, "`---`", "next line"),
    ("k" * 1025 + ": 1\n", 1, 1, "too long", "1024"),
    ("a: 1\nhello\nb: 2\n", 2, 1, "no colon", "`key: value`"),
    ('a: "hello\nb: c\n', 1, 4, "never closed", "same quote"),
    ("x: 1\na: 'hello\nb: c\n", 2, 4, "never closed", "same quote"),
    ('a: "x\n---\ny"\n', 1, 4, "never closed", "same quote"),
    ("a: 'it's'\n", 1, 8, "follows a closed quote", "twice"),
    ('a: "hello" there\n', 1, 12, "follows a closed quote", "whole text"),
    ("a: {name} volts\n", 1, 11, "follows a closed quote or bracket", "whole text"),
    ("a: [1, 2]]\n", 1, 10, "`]` closes nothing", "remove"),
    ("a: [1, 2\nb: 3\n", 2, 2, "neither a comma nor `]`", "close the list"),
    ("a: {x: 1\nb: 3\n", 2, 2, "neither a comma nor `}`", "close the map"),
    ("a: [1, 2, {b: c d: e}]\n", 1, 18, "second colon", "comma"),
    ('a: {b: "c" d}\n', 1, 12, "neither a comma nor `}`", "put a comma"),
    ("a: b}\nc: }\n", 2, 4, "`}` stands where", "quotes"),
    ("{a: b}}\n", 1, 7, "`}` closes nothing", "remove"),
    ("a: {ask: Does it turn?}\n", 1, 22, "cannot hold `?`", "quotes round"),
    ("a: [b, x?y]\n", 1, 9, "cannot hold `?`", "quotes round"),
    ("a: [http://x]\n", 1, 9, "cannot hold `:`", "quotes round"),
    ("a: {t: 12:30}\n", 1, 10, "cannot hold `:`", "quotes round"),
    ("a: [", 1, 5, "ends where a value", "close it"),
    ("a: [b, , c]\n", 1, 8, "`,` stands where", "missing value"),
    ("a: ]\n", 1, 4, "`]` stands where", "quotes"),
    ("a: @x\n", 1, 4, "cannot start with `@`", "quotes"),
    ("a: `x`\n", 1, 4, "cannot start with ```", "quotes"),
    ("a: % of x\n", 1, 4, "cannot start with `%`", "quotes"),
    ("a: * x\n", 1, 4, "cannot start with `*`", "quotes"),
    ("a: & b\n", 1, 4, "cannot start with `&`", "quotes"),
    ("a: ? b\n", 1, 4, "cannot start with `? `", "quotes"),
    ("a: - b\n", 1, 4, "list entry cannot start here", "its own line"),
    ("a: | text\n", 1, 6, "nothing may follow", "next line"),
    ("a:\n    b: 1\n  c: 2\n", 3, 3, "indentation", "same column"),
    ("a: |\n     x\n  y\nb: 1\n", 3, 3, "indentation", "same column"),
    ("a: 1\n- b\n", 2, 1, "among the keys", "indent the list"),
    ("- a\nb: 1\n", 2, 1, "among list entries", "`- `"),
    ('- "a" b\n', 1, 7, "follows a closed quote", "whole text"),
    ("- a: 1\n b: 2\n", 2, 2, "among list entries", "`- `"),
]


@pytest.mark.usefixtures("reader")
@pytest.mark.parametrize(("text", "line", "column", "message", "help_text"), SLIPS)
def test_a_slip_is_named_with_its_place_and_its_cure(
    text: str, line: int, column: int, message: str, help_text: str
) -> None:
    found = only_problem(text)
    assert (found.check, found.line, found.column) == ("yaml-syntax", line, column)
    assert message in found.message
    assert help_text in found.help


@pytest.mark.usefixtures("reader")
@pytest.mark.parametrize(
    ("written", "column"), [('"C:\\path"', 6), ('"\\xZZ"', 4), ('"\\U00110000"', 4)]
)
def test_a_backslash_that_starts_no_sign(written: str, column: int) -> None:
    found = only_problem(f"a: {written}\n")
    assert found.line == 1
    assert abs(found.column - column) <= 4  # the two readers stop a few characters apart
    assert "backslash" in found.message


@pytest.mark.usefixtures("reader")
@pytest.mark.parametrize(
    ("text", "check", "line"),
    [
        (": 1\n", "yaml-key", 1),
        ("a: !foo!bar b\n", "yaml-tag", 1),
        ("a: !<x b\n", "yaml-tag", 1),
        ("a: 1\n... x\n", "yaml-document", 2),
        ("a\n...\nb\n", "yaml-document", 3),
    ],
)
def test_an_error_of_the_reader_may_belong_to_another_check(
    text: str, check: str, line: int
) -> None:
    found = only_problem(text)
    assert (found.check, found.line) == (check, line)


def test_an_open_bracket_shows_where_it_was_opened() -> None:
    (place,) = only_problem("x: 1\nabc: [1, 2\nb: 3\n").also
    assert (place.line, place.column, place.label) == (2, 6, "opened here")


def test_the_key_that_cannot_stand_there_is_marked_as_a_whole() -> None:
    assert only_problem("key: value\n  more: x\n").length == len("more")


def test_what_the_reader_says_that_nobody_foresaw_still_has_a_place_and_a_help() -> None:
    found = explain(ReaderTrouble("something new", 2, 3), "a: 1\nb: 2\n")
    assert (found.check, found.line, found.column) == ("yaml-syntax", 2, 3)
    assert found.help


@pytest.mark.parametrize("text", [slip[0] for slip in SLIPS])
def test_no_sentence_speaks_of_tokens(text: str) -> None:
    found = only_problem(text)
    for word in ("token", "scalar", "mapping", "sequence", "flow", "block", "None", "<", "\n"):
        assert word not in found.message + found.help
    assert found.check in CHECKS
