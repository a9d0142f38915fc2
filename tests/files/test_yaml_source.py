"""A document as plain values with the place of each, read with both readers."""

import io
import math
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

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


# Against the safe loader of ruamel.yaml 0.19, a general-purpose library. It agrees on all that it
# writes itself, save where this project differs on purpose: keys are always texts, hidden
# characters are refused, and so are `?` and `:` inside brackets, which the C reader cannot read.
VISIBLE = st.characters(
    blacklist_categories=("Cc", "Cs", "Zl", "Zp", "Cn", "Co"),
    blacklist_characters="\ufeff\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069",
)
WORDS = st.sampled_from(
    ["", "~", "null", "yes", "off", "12", "0o7", "1_000", "2026-11-25", "1e3", "<<", "=", "a: b"]
    + ["- x", "#", "x #y", "[a]", "{b}", "*c", "&d", "!e", "%f", "@g", "'", '"', "\\", "\n", "a\nb"]
)
TEXTS = st.text(VISIBLE | st.sampled_from("\n\t :?-#'\"[]{}"), max_size=30) | WORDS
FLOW_TEXTS = TEXTS.map(lambda text: text.replace("?", "").replace(":", ""))


def data_of(texts: st.SearchStrategy[str]) -> st.SearchStrategy[Any]:
    scalars = (
        st.none()
        | st.booleans()
        | st.integers(-(10**38), 10**38)
        | st.floats(allow_nan=False, allow_infinity=False)
        | texts
    )
    return st.recursive(
        scalars,
        lambda inner: st.lists(inner, max_size=4) | st.dictionaries(texts, inner, max_size=4),
        max_leaves=15,
    )


BOUNDED = settings(
    derandomize=True,
    database=None,
    deadline=None,
    max_examples=100,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)


def dumped(data: Any, flow: bool | None, width: int) -> str:
    writer = YAML(typ="safe", pure=True)
    writer.default_flow_style = flow
    writer.width = width
    writer.allow_unicode = True
    writer.sort_base_mapping_type_on_output = False
    stream = io.StringIO()
    writer.dump(data, stream)
    return stream.getvalue()


def same(left: Any, right: Any) -> bool:
    if isinstance(left, dict) and isinstance(right, dict):
        return list(left) == list(right) and all(same(left[k], right[k]) for k in left)
    if isinstance(left, list) and isinstance(right, list):
        return len(left) == len(right) and all(map(same, left, right))
    if isinstance(left, float) and isinstance(right, float):
        return left == right and math.copysign(1, left) == math.copysign(1, right)
    return type(left) is type(right) and bool(left == right)


@pytest.mark.usefixtures("reader")
@pytest.mark.parametrize("flow", [True, False, None])
def test_what_ruamel_writes_is_read_as_ruamel_reads_it(flow: bool | None) -> None:
    @given(data_of(TEXTS if flow is False else FLOW_TEXTS), st.sampled_from([20, 80, 4096]))
    @BOUNDED
    def check(data: Any, width: int) -> None:
        text = dumped(data, flow, width)
        ours = parse_yaml(text.encode()).data
        assert same(ours, YAML(typ="safe", pure=True).load(text)), text
        assert same(ours, data), text

    check()


NAMES = st.text("abcdefgh", min_size=1, max_size=6).map(lambda name: "w" + name)
NAMED = st.recursive(
    NAMES | st.integers(0, 10**6),
    lambda inner: (
        st.lists(inner, min_size=1, max_size=4)
        | st.dictionaries(NAMES, inner, min_size=1, max_size=4)
    ),
    max_leaves=20,
)


def leaves(data: Any, path: Path = ()) -> Iterator[tuple[Path, Any]]:
    if isinstance(data, dict | list):
        for step, value in data.items() if isinstance(data, dict) else enumerate(data):
            yield from leaves(value, (*path, step))
    else:
        yield path, data


@pytest.mark.usefixtures("reader")
@given(NAMED, st.sampled_from([True, False, None]))
@BOUNDED
def test_the_text_at_every_place_is_the_value_itself(data: Any, flow: bool | None) -> None:
    source = parse_yaml(dumped(data, flow, 40).encode())
    lines = source.text.split("\n")

    def text_at(line: int, column: int) -> str:
        return lines[line - 1][column - 1 :]

    for path, value in leaves(source.data):
        assert text_at(*source.where(path)).startswith(str(value))
        if path and isinstance(path[-1], str):
            assert text_at(*source.where(path, key=True)).startswith(path[-1] + ":")
