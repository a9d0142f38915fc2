"""Lines of one width."""

from hypothesis import given
from hypothesis import strategies as st

from faulttree.render.page import WIDTH, column, count, cut, section, wrapped


@given(st.text(st.sampled_from("abc   é-"), max_size=400), st.sampled_from(["", "  ", "   1  "]))
def test_no_line_is_too_wide_and_no_word_is_lost(text, first):
    lines = wrapped(text, first)
    assert all(len(line) <= WIDTH for line in lines)
    assert "".join("".join(lines).split()) == "".join(f"{first}{text}".split())


def test_further_lines_hang_below_the_first():
    lines = wrapped("word " * 40, "  - ")
    assert lines[0].startswith("  - word")
    assert {line[:4] for line in lines[1:]} == {"    "}
    assert wrapped("word " * 40, "  - ", "      ")[1].startswith("      word")


def test_nothing_to_say_leaves_what_the_line_begins_with():
    assert wrapped("", "  head  ") == ["  head"]


def test_a_section_without_lines_has_no_head():
    assert list(section("Head", [])) == []
    assert list(section("Head", ["  a"])) == ["", "Head", "  a"]


def test_columns_are_as_wide_as_their_texts_up_to_a_limit():
    assert (column(["ab", "abcd"], 10), column(["abcd"], 3), column([], 3)) == (4, 3, 0)
    assert (cut("abcd", 4), cut("abcde", 4)) == ("abcd", "ab..")


def test_one_is_no_plural():
    assert (count(1, "car"), count(2, "car"), count(0, "car")) == ("1 car", "2 cars", "0 cars")
