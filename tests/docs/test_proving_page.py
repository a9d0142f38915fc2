"""docs/proving.md and docs/command-line.md name every key and option there is."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from proofs import SWAPPED, cargo, result

from faulttree.core.proof.ends import Worth
from faulttree.core.proof.expected import expected_at
from faulttree.render.expected_json import expected_json
from faulttree.render.proof_json import proofs_json

DOCS = Path(__file__).parents[2] / "docs"
PAGE = (DOCS / "proving.md").read_text("utf-8")
COMMANDS = (DOCS / "command-line.md").read_text("utf-8")


def _keys(data: Any) -> Iterator[str]:
    if isinstance(data, dict):
        for key, value in data.items():
            yield key
            if key not in ("verdicts-without-group", "corrected-by-proof"):
                yield from _keys(value)
    elif isinstance(data, list):
        for each in data:
            yield from _keys(each)


def test_every_key_of_the_data_is_described():
    bench, judge = cargo()
    steps = ("seen", "switch-feed")
    data = [proofs_json([result(SWAPPED)], "switch"), proofs_json([result()], "plug")]
    data += [expected_json(bench.tree, s, expected_at(bench, judge, s)) for s in steps]
    missing = {key for key in _keys(data) if f"`{key}`" not in PAGE and f"`{key}:" not in PAGE}
    assert not missing


def test_every_worth_is_named():
    assert all(f"`{worth.value}`" in PAGE for worth in Worth)


def test_the_sample_can_be_found_and_made_anew():
    assert (
        len(re.findall(r"<!-- SAMPLE of `faulttree prove .*?<!-- END OF SAMPLE -->", PAGE, re.S))
        == 1
    )


def test_the_commands_are_on_their_page():
    for text in ("faulttree prove TREE…", "faulttree expect TREE STEP", "--junit", "--battery"):
        assert text in COMMANDS
