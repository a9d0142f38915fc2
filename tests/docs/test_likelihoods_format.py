"""docs/likelihoods-format.md: its example fits the lamp tree, and no key is left out."""

import re
import shutil
from pathlib import Path

import pytest
from builders import LAMP

from faulttree.core.circuit.elements import Intermittent
from faulttree.core.likelihoods import HEALTHY, OTHERS, LikelihoodTable, TableSuspect
from faulttree.files.documents import check_file

PAGE = (Path(__file__).parents[2] / "docs" / "likelihoods-format.md").read_text("utf-8")
EXAMPLE = re.findall(r"^```yaml\n(.*?)^```", PAGE, re.DOTALL | re.MULTILINE)[0]
HEAD = {"format", "id", "version", "tree", "note"}


def test_the_example_is_sound(tmp_path):
    shutil.copy(LAMP / "tree.yaml", tmp_path)
    (tmp_path / "likelihoods.yaml").write_text(EXAMPLE, "utf-8")
    assert check_file(tmp_path / "likelihoods.yaml").problems == ()


@pytest.mark.parametrize(
    "key",
    [
        *(set(LikelihoodTable.model_fields) - HEAD),
        *TableSuspect.model_fields,
        *Intermittent.model_fields,
        HEALTHY,
        OTHERS,
    ],
)
def test_every_key_is_described(key):
    assert f"`{key}`" in PAGE


def test_the_head_is_in_the_example():
    assert all(f"\n{key}: " in f"\n{EXAMPLE}" for key in HEAD)
