"""What is written as YAML is read back as it was."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from faulttree.files.yaml_source import parse_yaml
from faulttree.files.yaml_writer import yaml_bytes

ROOT = Path(__file__).parents[2]
DOCUMENTS = sorted([*(ROOT / "trees").rglob("*.yaml"), *(ROOT / "tests/data/proof").glob("*.yaml")])
TEXTS = st.text(st.characters(codec="utf-8", exclude_categories=["C"]), max_size=30)
VALUES = st.recursive(
    st.none() | st.booleans() | st.integers(-9999, 9999) | TEXTS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXTS, inner, max_size=4),
    max_leaves=12,
)


@pytest.mark.parametrize("path", DOCUMENTS, ids=lambda p: f"{p.parent.name}/{p.name}")
def test_documents_come_back_as_they_were(path):
    data = parse_yaml(path.read_bytes()).data
    written = yaml_bytes(data)
    assert parse_yaml(written).data == data
    assert max(map(len, written.decode().splitlines())) <= 110


@given(st.dictionaries(TEXTS.filter(bool), VALUES, min_size=1, max_size=4))
def test_any_values_come_back_as_they_were(data):
    assert parse_yaml(yaml_bytes(data)).data == data


WORDS = ["on", "No", "~", "", " x", "a: b", "a #b", "- a", "a\nb", "{x}", "'", "? a", "a, b"]
NUMBERS = ["12", "1.5", "-1 V", "1e3", "0x1F", "2026-01-02", "12:30", "1.0.0", "12 V"]
LONG = ["x " * 80, "long " * 40 + "end", "long " * 40 + "end\n", "long " * 40 + "\n\n"]


@pytest.mark.parametrize("text", WORDS + NUMBERS + LONG)
def test_texts_that_look_like_something_else_stay_texts(text):
    data = {"a": text, "b": [text, {"c": text}]}
    assert parse_yaml(yaml_bytes(data)).data == data
