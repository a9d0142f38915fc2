"""What is imported before the first answer or the first frame: docs/benchmarks.md tells why."""

import subprocess
import sys
from pathlib import Path

import pytest

_TREE = Path(__file__).parents[2] / "trees" / "no-crank-intermittent" / "tree.yaml"
_CODE = """
import sys
from contextlib import suppress
from faulttree.cli.main import main
with suppress(SystemExit):
    {work}
print(*sorted({{name.partition(".")[0] for name in sys.modules}} & set(sys.argv[1:])))
"""
_LIBRARIES = ("textual", "rich", "pydantic", "ruamel", "numpy", "shtab")


def _imported(work: str, *names: str) -> list[str]:
    """Which of these packages some work of the program imports."""
    code = _CODE.format(work=work)
    done = subprocess.run(
        [sys.executable, "-c", code, *names], capture_output=True, text=True, check=True
    )
    return done.stdout.splitlines()[-1].split()


@pytest.mark.parametrize("option", ["--help", "--version"])
def test_what_answers_at_once_imports_none_of_the_libraries(option: str) -> None:
    assert _imported(f"main(['{option}'])", *_LIBRARIES) == []


def test_the_home_screen_is_drawn_before_any_document_could_be_read() -> None:
    work = "import faulttree.cli.home, faulttree.ui.app, faulttree.ui.screens.home"
    assert _imported(work, *_LIBRARIES) == ["rich", "textual"]


def test_a_check_needs_no_screen() -> None:
    assert _imported(f"main(['check', {str(_TREE)!r}])", *_LIBRARIES) == ["pydantic", "ruamel"]


def test_a_sum_needs_none_of_the_libraries() -> None:
    work = "main(['calc', 'wire-drop', '5m', '2.5mm2', '10A'])"
    assert _imported(work, *_LIBRARIES) == []


def test_only_a_sum_of_damp_air_or_refrigerant_loads_what_it_needs() -> None:
    late = ("psychrolib", "tables")
    tables = (
        "sys.modules |= {'tables': 0} if any('.tables.' in m for m in list(sys.modules)) else {}"
    )
    for line, needed in (
        ("", []),
        ("approach 44C 30C", []),
        ("dew-point 35C 40%", ["psychrolib"]),
        ("superheat 190kPa 9C R-134a", ["tables"]),
    ):
        work = f"main({['calc', *line.split()]}); {tables}"
        assert _imported(work, *late) == needed, line
