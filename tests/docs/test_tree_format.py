"""docs/tree-format.md lists every function of expressions, as it is written, and no other."""

import re
from pathlib import Path

from faulttree.core.expression_functions import FUNCTIONS

PAGE = (Path(__file__).parents[2] / "docs" / "tree-format.md").read_text("utf-8")


def test_every_function_has_its_row_with_what_it_takes() -> None:
    rows = re.findall(r"^\| (`[a-z-]+\(.*?) \|", PAGE, re.MULTILINE)
    listed = {call for row in rows for call in re.findall(r"`([^`]+)`", row)}
    assert listed == {f"{name}({', '.join(f.takes)})" for name, f in FUNCTIONS.items()}
