"""Reports show local time; here it is UTC."""

import time
from collections.abc import Iterator

import pytest


@pytest.fixture(autouse=True)
def _utc(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    with monkeypatch.context() as here:
        here.setenv("TZ", "UTC")
        time.tzset()
        yield
    time.tzset()
