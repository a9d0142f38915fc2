"""A document as plain values with the place of each, read with both readers."""

import pytest

from faulttree.files.yaml_errors import YamlError
from faulttree.files.yaml_source import Value, parse_yaml

DOCUMENT = """\
# a comment
format: tree/1
title: "Feed at the relay"
needs:
  values: {fuse: 10 A, "cold": -4.5}
steps:
  - kind: measure
    bands:
    - {name: low, below: 1}
    -   - 12.6
        - ~
  - |
    Two lines
    of text
note:
last: end
"""

Path = tuple[str | int, ...]


@pytest.mark.usefixtures("reader")
@pytest.mark.parametrize(
    ("path", "value", "key"),
    [
        ((), (2, 1), (2, 1)),
        (("format",), (2, 9), (2, 1)),
        (("title",), (3, 8), (3, 1)),
        (("needs",), (5, 3), (4, 1)),
        (("needs", "values"), (5, 11), (5, 3)),
        (("needs", "values", "fuse"), (5, 18), (5, 12)),
        (("needs", "values", "cold"), (5, 32), (5, 24)),
        (("steps",), (7, 3), (6, 1)),
        (("steps", 0), (7, 5), (7, 5)),
        (("steps", 0, "kind"), (7, 11), (7, 5)),
        (("steps", 0, "bands"), (9, 5), (8, 5)),
        (("steps", 0, "bands", 0), (9, 7), (9, 7)),
        (("steps", 0, "bands", 0, "below"), (9, 26), (9, 19)),
        (("steps", 0, "bands", 1), (10, 9), (10, 9)),
        (("steps", 0, "bands", 1, 0), (10, 11), (10, 11)),
        (("steps", 0, "bands", 1, 1), (11, 11), (11, 11)),
        (("steps", 1), (12, 5), (12, 5)),
        (("note",), (15, 1), (15, 1)),  # a value left out stands at its key
        (("last",), (16, 7), (16, 1)),
    ],
)
def test_every_value_and_key_has_its_place(
    path: Path, value: tuple[int, int], key: tuple[int, int]
) -> None:
    source = parse_yaml(DOCUMENT.encode())
    assert source.where(path) == value
    assert source.where(path, key=True) == key


@pytest.mark.parametrize(
    ("path", "nearest"),
    [
        (("nothing",), ()),
        (("needs", "points", "relay"), ("needs",)),
        (("needs", 0), ("needs",)),
        (("steps", 2), ("steps",)),
        (("steps", -1), ("steps",)),
        (("steps", "0"), ("steps",)),
        (("steps", 0, "bands", 0, "name", "x"), ("steps", 0, "bands", 0, "name")),
        (("note", "x"), ("note",)),
    ],
)
def test_a_path_that_does_not_exist_leads_to_the_nearest_part_above(
    path: Path, nearest: Path
) -> None:
    source = parse_yaml(DOCUMENT.encode())
    assert source.where(path) == source.where(nearest)
    assert source.where(path, key=True) == source.where(nearest, key=True)


@pytest.mark.usefixtures("reader")
def test_the_values_of_a_document() -> None:
    assert parse_yaml(DOCUMENT.encode()).data == {
        "format": "tree/1",
        "title": "Feed at the relay",
        "needs": {"values": {"fuse": "10 A", "cold": -4.5}},
        "steps": [
            {"kind": "measure", "bands": [{"name": "low", "below": 1}, [12.6, None]]},
            "Two lines\nof text\n",
        ],
        "note": None,
        "last": "end",
    }


@pytest.mark.usefixtures("reader")
@pytest.mark.parametrize("text", ["", "\n\n", "# only a comment\n", "---\n", "--- # x\n", "~\n"])
def test_a_document_of_nothing(text: str) -> None:
    source = parse_yaml(text.encode())
    assert source.data is None
    assert source.where(()) == source.where(("a", 1), key=True) == (1, 1)


@pytest.mark.usefixtures("reader")
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("12\n", 12),
        ("[]\n", []),
        ("{}\n", {}),
        ("--- {a: 1}\n...\n", {"a": 1}),
        ("a: '12'\n", {"a": "12"}),
        ('a: "true"\n', {"a": "true"}),
        ("a: |\n  12\n", {"a": "12\n"}),
        ("a: >-\n  null\n", {"a": "null"}),
        ("a: ''\n", {"a": ""}),
        ("a: on\nb: No\nc: 12:30\n", {"a": "on", "b": "No", "c": "12:30"}),
        ("version: 1.0.0\ndate: 2026-11-25\n", {"version": "1.0.0", "date": "2026-11-25"}),
        ("1: a\n1.0: b\ntrue: c\n~: d\n", {"1": "a", "1.0": "b", "true": "c", "~": "d"}),
        ("'': a\n'<<': b\n", {"": "a", "<<": "b"}),
        ("on: 1\noff: 2\nno: 3\n", {"on": 1, "off": 2, "no": 3}),
        ("a: [b, {c: d}]\n", {"a": ["b", {"c": "d"}]}),
        ("? a\n: b\n? c\n", {"a": "b", "c": None}),
        ("-\n- a\n-\n", [None, "a", None]),
    ],
)
def test_small_documents(text: str, expected: Value) -> None:
    data = parse_yaml(text.encode()).data
    assert data == expected
    assert repr(data) == repr(expected)  # 1, 1.0 and True are equal, and not the same


@pytest.mark.usefixtures("reader")
@pytest.mark.parametrize("tail", ["", "  - a: 1\n", "  a: 1\n  a: 2\n  b: *x\n", "  [}: {\n"])
def test_reading_stops_at_a_key_of_the_outermost_map(tail: str) -> None:
    head = "id: x\nneeds: {steps: 1}\nlist:\n  - steps: 2\n"
    source = parse_yaml((head + "steps:\n" + tail).encode(), stop_at="steps")
    assert source.data == {"id": "x", "needs": {"steps": 1}, "list": [{"steps": 2}]}
    assert source.where(("needs", "steps")) == (2, 16)
    assert source.where(("steps",)) == (1, 1)


@pytest.mark.parametrize("text", ["a: 1\nb: 2\n", "- steps\n- steps: 1\n", "steps", ""])
def test_without_that_key_everything_is_read(text: str) -> None:
    stopped, whole = parse_yaml(text.encode(), stop_at="steps"), parse_yaml(text.encode())
    assert stopped.data == whole.data


def test_what_is_wrong_above_the_key_is_told() -> None:
    with pytest.raises(YamlError) as caught:
        parse_yaml(b"a: 1\na: 2\nsteps: x\n", stop_at="steps")
    assert [p.check for p in caught.value.problems] == ["duplicate-key"]


def test_an_error_reads_as_its_problems_in_order() -> None:
    with pytest.raises(YamlError) as caught:
        parse_yaml(b"a: *x\na: !t 2\n")
    assert [p.line for p in caught.value.problems] == [1, 2, 2]
    assert str(caught.value).startswith("line 1: the alias *x")
