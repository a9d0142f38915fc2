"""docs/checks.md has one entry for each check, and none for others."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from faulttree.files.yaml_errors import CHECKS

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "checks.md").read_text("utf-8")


def _ids_in_code() -> Iterator[str]:
    """The first argument of everything that makes a finding or a problem."""
    for path in (*ROOT.glob("faulttree/core/**/*.py"), *ROOT.glob("faulttree/files/*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") in (
                "Finding",
                "Problem",
            ):
                first = node.args[0] if node.args else None
                if isinstance(first, ast.Constant):
                    yield str(first.value)


def test_the_page_has_an_entry_for_every_check():
    assert {*_ids_in_code(), *CHECKS} - set(_entries()) == set()


def test_the_page_has_no_entry_for_a_check_that_is_not_there():
    assert set(_entries()) - {*_ids_in_code(), *CHECKS} == set()


def test_each_entry_is_there_once_and_says_something():
    entries = _entries()
    assert len(entries) == PAGE.count("\n### ")
    assert all(len(text.split()) > 12 for text in entries.values())


def _entries() -> dict[str, str]:
    return dict(re.findall(r"^### `([a-z-]+)`\n((?:(?!#).+\n?)+)", PAGE, re.MULTILINE))
