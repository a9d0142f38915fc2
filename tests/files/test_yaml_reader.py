"""Two readers, one result: what is read may not depend on what is installed."""

import subprocess
import sys
import time
from contextlib import suppress

import pytest

from faulttree.files.yaml_errors import YamlError
from faulttree.files.yaml_source import parse_yaml, reader_name

WITHOUT_C = """
import sys
sys.modules["_ruamel_yaml"] = None
from faulttree.files.yaml_source import parse_yaml, reader_name
print(reader_name(), parse_yaml(b"a: [1, {b: c}]").data)
"""

IMPORT_ONLY = """
import sys
import faulttree.files.yaml_source
print("ruamel.yaml" in sys.modules)
"""


def output_of(program: str) -> str:
    arguments = [sys.executable, "-c", program]
    return subprocess.run(arguments, capture_output=True, text=True, check=True).stdout.strip()


def test_the_reader_in_use_has_a_name(reader: str) -> None:
    assert reader_name() == reader


def test_without_the_c_module_the_python_reader_serves() -> None:
    assert output_of(WITHOUT_C) == "Python {'a': [1, {'b': 'c'}]}"


def test_ruamel_is_loaded_only_when_something_is_read() -> None:
    assert output_of(IMPORT_ONLY) == "False"


@pytest.mark.usefixtures("reader")
@pytest.mark.parametrize(
    "text",
    [
        *("!" * 500_000, "a: " + "!" * 500_000, "[" + ",!" * 100_000, "!a" * 100_000),
        *("{" * 100_000, "? " * 100_000, "&" * 100_000, "&" + "a" * 100_000, "*" + "a" * 100_000),
        *("%" * 100_000, "#\n" * 100_000, "\n" * 200_000, '"' + "\\n" * 100_000, ":" * 100_000),
        *("a b\n" * 50_000, "|\n" * 50_000, "- |\n" * 5_000, '["a":' * 20_000, "\t" * 100_000),
    ],
    ids=lambda text: repr(text[:8]),
)
def test_no_document_takes_long(text: str) -> None:
    started = time.perf_counter()
    with suppress(YamlError):
        parse_yaml(text.encode())
    assert time.perf_counter() - started < 10
