"""From bytes to text that is safe to read and to show."""

import pytest

from faulttree.core.problem import Problem
from faulttree.files import yaml_text
from faulttree.files.yaml_errors import YamlError
from faulttree.files.yaml_source import parse_yaml


def only_problem(data: bytes) -> Problem:
    with pytest.raises(YamlError) as caught:
        parse_yaml(data)
    (found,) = caught.value.problems
    return found


def place(found: Problem) -> tuple[str, int, int]:
    return found.check, found.line, found.column


def test_a_file_of_two_million_bytes_is_read_and_a_larger_one_is_not() -> None:
    head = b"a: 1\n#"
    largest = head + b"x" * (2_000_000 - len(head))
    assert parse_yaml(largest).data == {"a": 1}
    assert only_problem(largest + b"x").check == "file-size"


def test_one_byte_order_mark_is_accepted_and_moves_no_column() -> None:
    source = parse_yaml(b"\xef\xbb\xbfa: 1\n")
    assert source.data == {"a": 1}
    assert source.text == "a: 1\n"
    assert source.where(("a",)) == (1, 4)


def test_a_second_byte_order_mark_is_a_hidden_character() -> None:
    assert place(only_problem(b"\xef\xbb\xbf\xef\xbb\xbfa: 1\n")) == ("hidden-character", 1, 1)


def test_the_line_ends_of_windows_are_read_like_those_of_unix() -> None:
    source = parse_yaml(b"a: |\r\n  one\r\n  two\r\nb: 2\r\n")
    assert source.data == {"a": "one\ntwo\n", "b": 2}
    assert source.text == "a: |\n  one\n  two\nb: 2\n"
    assert source.where(("b",)) == (4, 4)


@pytest.mark.parametrize(
    ("data", "line", "column"),
    [
        (b"\xff", 1, 1),
        (b"a: 1\nb: caf\xe9\n", 2, 7),
        ("a: é\nß: ".encode() + b"\x80\n", 2, 4),
        (b"\xef\xbb\xbfa: \xe9", 1, 4),
        (b"a: 1\r\nb: \xc3", 2, 4),
        (b"a: \xc0\xaf", 1, 4),  # a slash in two bytes
        (b"a: \xed\xa0\x80", 1, 4),  # half of a pair
    ],
)
def test_the_first_byte_that_is_not_utf8_is_named(data: bytes, line: int, column: int) -> None:
    assert place(only_problem(data)) == ("file-encoding", line, column)


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-32"])
def test_a_file_in_another_encoding_is_refused(encoding: str) -> None:
    with pytest.raises(YamlError) as caught:
        parse_yaml("a: 1\n".encode(encoding))
    assert caught.value.problems[0].check in ("file-encoding", "hidden-character")


def test_a_file_saved_as_utf16_is_told_so() -> None:
    assert "UTF-16" in only_problem(b"\xff\xfe" + "a: 1".encode("utf-16-le")).message


HIDDEN = [
    *("\x00", "\x07", "\x1b", "\x7f", "\x85", "\x9b", "\x0b", "\x0c"),
    *("\u2028", "\u2029", "\u202a", "\u202e", "\u2066", "\u2069", "\ufeff", "\ufffe"),
]


@pytest.mark.parametrize("character", HIDDEN)
@pytest.mark.parametrize("template", ["a: x{}y\n", "b: 1 # {}\n", "a: 'x{}'\n", "x{}: 1\n"])
def test_a_hidden_character_is_refused_wherever_it_stands(character: str, template: str) -> None:
    text = template.format(character)
    found = only_problem(text.encode())
    assert place(found) == ("hidden-character", 1, text.index(character) + 1)
    assert f"U+{ord(character):04X}" in found.message


@pytest.mark.parametrize("character", HIDDEN)
def test_an_escape_cannot_bring_a_hidden_character_in(character: str) -> None:
    found = only_problem(f'a:\n  - "x\\u{ord(character):04x}"\n'.encode())
    assert place(found) == ("hidden-character", 2, 5)


@pytest.mark.parametrize("written", ['"\\e[2J"', '"\\0"', '"\\r"', '"\\N"', '"\\L"', '"\\x9b"'])
def test_the_short_escapes_are_checked_too(written: str) -> None:
    assert only_problem(f"a: {written}\n".encode()).check == "hidden-character"
    assert only_problem(f"{written}: 1\n".encode()).check == "hidden-character"


def test_a_name_shown_in_a_message_holds_no_hidden_character() -> None:
    with pytest.raises(YamlError) as caught:
        parse_yaml(b'"\\e[2J": 1\n"\\e[2J": 2\n')
    assert "\x1b" not in str(caught.value)


@pytest.mark.parametrize(
    "text", ["a: 'x\ty'\n", "a: µΩ°→≤é𝄞\n", 'a: "\\t\\n\\u00b5"\n', "a: ‘x’\n"]
)
def test_tabs_and_every_visible_character_are_fine(text: str) -> None:
    assert parse_yaml(text.encode()).data


def test_all_hidden_characters_are_told_at_once() -> None:
    with pytest.raises(YamlError) as caught:
        parse_yaml("a: \x1b\nb: 1\nc: \u202e\n".encode())
    assert [p.line for p in caught.value.problems] == [1, 3]


def test_a_bare_carriage_return_is_told_once() -> None:
    assert place(only_problem(b"a: 1\rb: 2\rc: 3\r")) == ("hidden-character", 1, 5)


def test_no_more_problems_are_told_than_can_be_mended() -> None:
    with pytest.raises(YamlError) as caught:
        parse_yaml(b"\x1b" * 5000)
    assert len(caught.value.problems) == yaml_text.MAX_REPORTED


@pytest.mark.parametrize(
    ("data", "line"),
    [
        (b"%YAML 1.1\n---\na: on\n", 1),
        (b"# note\n\n  \n%TAG ! x:\n---\na: 1\n", 4),
        (b"%anything\na: 1\n", 1),
        (b"\xef\xbb\xbf%YAML 1.2\n---\na: 1\n", 1),
    ],
)
def test_a_directive_is_refused(data: bytes, line: int) -> None:
    assert place(only_problem(data)) == ("yaml-directive", line, 1)


def test_a_directive_does_not_hide_what_is_wrong_below() -> None:
    with pytest.raises(YamlError) as caught:
        parse_yaml(b"%YAML 1.1\n%TAG ! x:\n---\na: 1\na: 2\n")
    assert [(p.check, p.line) for p in caught.value.problems] == [
        ("yaml-directive", 1),
        ("yaml-directive", 2),
        ("duplicate-key", 5),
    ]


@pytest.mark.parametrize(
    "data", [b"a: 5 %\n", b"a: |\n  %x\n", b"a: 'x\n\n  % y'\n", b"# %\na: 1\n"]
)
def test_a_percent_sign_elsewhere_is_text(data: bytes) -> None:
    assert parse_yaml(data).data


def test_place_of_counts_lines_and_columns_from_one() -> None:
    text = "ab\n\ncd"
    places = [yaml_text.place_of(text, offset) for offset in range(len(text))]
    assert places == [(1, 1), (1, 2), (1, 3), (2, 1), (3, 1), (3, 2)]
