"""Both readers of YAML, so that a test can run with each."""

import pytest
import ruamel.yaml.main

from faulttree.files.yaml_source import reader_name

READERS = ("C (libyaml)", "Python")


@pytest.fixture(params=READERS)
def reader(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """The name of the reader in use; skipped where the C module is not installed."""
    wanted = str(request.param)
    if wanted == "Python":
        monkeypatch.setattr(ruamel.yaml.main, "CParser", None)
    if reader_name() != wanted:
        pytest.skip("the C module of ruamel.yaml is not installed")
    return wanted
