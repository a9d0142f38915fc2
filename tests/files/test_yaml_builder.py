"""Hostile and broken documents: each is refused, in its place, by both readers, and at once."""

import pytest

from faulttree.core.problem import Place
from faulttree.files import yaml_builder
from faulttree.files.yaml_errors import CHECKS, YamlError
from faulttree.files.yaml_source import parse_yaml


def problems_of(text: str) -> list[tuple[str, int, int]]:
    with pytest.raises(YamlError) as caught:
        parse_yaml(text.encode())
    for problem in caught.value.problems:
        assert problem.check in CHECKS
        assert problem.severity == "error"
        assert problem.help
    return [(p.check, p.line, p.column) for p in caught.value.problems]


def merge_bomb(levels: int) -> str:
    """Every level merges the one before it twice; 1 kB of text stands for 2^levels keys."""
    lines = ["a0: &a0 {k: v}"]
    lines += [f"a{n}: &a{n} {{<<: [*a{n - 1}, *a{n - 1}], k{n}: v}}" for n in range(1, levels + 1)]
    return "\n".join(lines) + "\n"


def alias_bomb() -> str:
    """Nine lists of nine aliases each: 9^9 texts if they were written out."""
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 9)]
    return "\n".join(lines) + "\n"


@pytest.mark.usefixtures("reader")
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        pytest.param("a: 1\nb: 2\na: 3\n", [("duplicate-key", 3, 1)], id="duplicate key"),
        pytest.param("x:\n  a: 1\n  'a': 2\n", [("duplicate-key", 3, 3)], id="quoted duplicate"),
        pytest.param("{a: 1, a: 2}", [("duplicate-key", 1, 8)], id="duplicate in brackets"),
        pytest.param(
            "a: &x 1\nb: *x\n", [("yaml-anchor", 1, 4), ("yaml-alias", 2, 4)], id="anchor, alias"
        ),
        pytest.param(
            "a: &x [*x]\n", [("yaml-anchor", 1, 4), ("yaml-alias", 1, 8)], id="anchor in itself"
        ),
        pytest.param("&x a: 1\n", [("yaml-anchor", 1, 1)], id="anchor on a key"),
        pytest.param("*x : 1\n", [("yaml-alias", 1, 1)], id="alias as a key"),
        pytest.param("a: &x\n", [("yaml-anchor", 1, 4)], id="anchor on nothing"),
        pytest.param("<<: {a: 1}\n", [("yaml-merge", 1, 1)], id="merge key"),
        pytest.param(
            "a: !!python/object/apply:os.system [ls]\n", [("yaml-tag", 1, 4)], id="object"
        ),
        pytest.param("a: !!set {b}\n", [("yaml-tag", 1, 4)], id="set"),
        pytest.param("a: !!binary aGk=\n", [("yaml-tag", 1, 4)], id="binary"),
        pytest.param("a: !!str 12\n", [("yaml-tag", 1, 4)], id="harmless tag"),
        pytest.param("a: ! 12\n", [("yaml-tag", 1, 4)], id="empty tag"),
        pytest.param('a: ! "12"\n', [("yaml-tag", 1, 4)], id="empty tag on quotes"),
        pytest.param("! [a]\n", [("yaml-tag", 1, 1)], id="empty tag on a list"),
        pytest.param("? [1, 2]\n: x\n", [("yaml-key", 1, 3)], id="list as a key"),
        pytest.param("? {a: 1}\n: x\n", [("yaml-key", 1, 3)], id="map as a key"),
        pytest.param("a: {{b}}\n", [("yaml-key", 1, 5)], id="doubled brackets"),
        pytest.param("?\n: x\n", [("yaml-key", 1, 2)], id="no key"),
        pytest.param("a: 1\n---\nb: 2\n", [("yaml-document", 2, 1)], id="second document"),
        pytest.param("---\n---\n", [("yaml-document", 2, 1)], id="empty second document"),
        pytest.param("a: " + "9" * 5000 + "\n", [("yaml-number", 1, 4)], id="5,000 digits"),
        pytest.param("a: 1e400\n", [("yaml-number", 1, 4)], id="endless by size"),
        pytest.param(
            "a: [.inf, .nan]\n", [("yaml-number", 1, 5), ("yaml-number", 1, 11)], id="inf"
        ),
        pytest.param("a: " + "x" * 1_000_000 + "\n", [("yaml-length", 1, 4)], id="1 MB of text"),
        pytest.param("a: '" + "x" * 64_001 + "'\n", [("yaml-length", 1, 4)], id="64 kB in quotes"),
        pytest.param("a: " + "é" * 32_001 + "\n", [("yaml-length", 1, 4)], id="64 kB of accents"),
        pytest.param("[" * 5_000 + "]" * 5_000, [("yaml-depth", 1, 33)], id="5,000 lists deep"),
        pytest.param("[" * 200_000 + "]" * 200_000, [("yaml-depth", 1, 33)], id="200,000 deep"),
        pytest.param("[" * 200_000, [("yaml-depth", 1, 33)], id="200,000 deep and open"),
        pytest.param("- " * 5_000 + "a\n", [("yaml-depth", 1, 65)], id="5,000 dashes"),
        pytest.param(
            "\n".join(" " * n + "a:" for n in range(1_900)),
            [("yaml-depth", 33, 33)],
            id="1,900 maps",
        ),
    ],
)
def test_a_hostile_document_is_refused_in_its_place(
    text: str, expected: list[tuple[str, int, int]]
) -> None:
    assert problems_of(text) == expected


@pytest.mark.usefixtures("reader")
@pytest.mark.parametrize("text", [merge_bomb(25), alias_bomb()], ids=["merge keys", "aliases"])
def test_a_bomb_does_not_go_off(text: str) -> None:
    found = problems_of(text)
    assert found[0] == ("yaml-anchor", 1, 5)
    assert {check for check, _, _ in found} <= {"yaml-anchor", "yaml-alias", "yaml-merge"}


def test_a_document_may_be_32_deep() -> None:
    data = parse_yaml(("[" * 32 + "]" * 32).encode()).data
    for _ in range(31):
        assert isinstance(data, list)
        (data,) = data
    assert data == []


def test_a_text_may_have_64_kilobytes() -> None:
    for text in ("x" * 64_000, "é" * 32_000):
        assert parse_yaml(f"a: {text}\n".encode()).data == {"a": text}


def test_a_document_has_no_more_entries_than_the_limit() -> None:
    entries = "".join(f"k{n}: 1\n" for n in range(150_000))
    assert problems_of(entries) == [("yaml-nodes", 100_000, 9)]


@pytest.mark.usefixtures("reader")
def test_keys_values_maps_and_lists_all_count(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(yaml_builder, "MAX_NODES", 5)
    assert parse_yaml(b"a: [1, 2]\n").data == {"a": [1, 2]}
    assert problems_of("a: [1, 2, 3]\n") == [("yaml-nodes", 1, 11)]


@pytest.mark.usefixtures("reader")
def test_everything_wrong_is_told_at_once_and_by_line() -> None:
    text = "a: &x 1\nb: *x\nc: !t 2\n<<: 3\na: 4\nd: 1e999\ne: [*x, *y]\na: 5\n? [f]\n: *z\n"
    assert problems_of(text) == [
        ("yaml-anchor", 1, 4),
        ("yaml-alias", 2, 4),
        ("yaml-tag", 3, 4),
        ("yaml-merge", 4, 1),
        ("duplicate-key", 5, 1),
        ("yaml-number", 6, 4),
        ("yaml-alias", 7, 5),
        ("yaml-alias", 7, 9),
        ("duplicate-key", 8, 1),
        ("yaml-key", 9, 3),
        ("yaml-alias", 10, 3),
    ]


@pytest.mark.usefixtures("reader")
def test_what_was_found_before_the_reader_gave_up_is_told_too() -> None:
    assert problems_of("a: 1\na: 2\nb: c: d\n") == [("duplicate-key", 2, 1), ("yaml-syntax", 3, 5)]


def test_a_duplicate_shows_both_places_and_marks_the_key() -> None:
    with pytest.raises(YamlError) as caught:
        parse_yaml(b"steps:\n  one: 1\n  two: 2\n  one: 3\n  one: 4\n")
    second, third = caught.value.problems
    assert second.also == third.also == (Place(2, 3, "first here"),)
    assert (second.line, third.line, second.length) == (4, 5, len("one"))
    assert "line 2" in second.message


def test_the_same_key_in_different_maps_is_no_duplicate() -> None:
    assert parse_yaml(b"- a: 1\n- a: 2\n- {b: {a: 3}, a: 4}\n").data


def test_a_second_document_shows_where_the_first_began() -> None:
    with pytest.raises(YamlError) as caught:
        parse_yaml(b"# note\na: 1\n---\nb: 2\n")
    assert caught.value.problems[0].also == (Place(2, 1, "the first one starts here"),)


@pytest.mark.parametrize(
    ("text", "length"), [("a: *name\n", 5), ("a: &name b\n", 5), ("a: !!str b\n", 5), ("<<: a", 2)]
)
def test_the_offending_sign_is_marked_as_a_whole(text: str, length: int) -> None:
    with pytest.raises(YamlError) as caught:
        parse_yaml(text.encode())
    assert caught.value.problems[0].length == length


def test_a_long_name_does_not_flood_the_message() -> None:
    with pytest.raises(YamlError) as caught:
        parse_yaml(b"a: &" + b"x" * 100_000 + b" 1\n")
    assert len(caught.value.problems[0].message) < 200


def test_reading_ends_where_nobody_would_mend_more() -> None:
    assert len(problems_of("- *x\n" * 5_000)) == 100
