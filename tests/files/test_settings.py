"""Settings: kept whole, and a spoilt file costs nothing but the choices in it."""

import pytest

from faulttree.core.units import UnitSystem
from faulttree.files import settings
from faulttree.files.settings import Settings


def test_what_was_saved_is_loaded(tmp_path):
    chosen = Settings(UnitSystem.US, dark=False, technician="K. Reeve")
    settings.save(tmp_path / "deep", chosen)
    assert settings.load(tmp_path / "deep") == chosen


def test_without_a_file_the_usual_values_count(tmp_path):
    assert settings.load(tmp_path / "none") == Settings()


@pytest.mark.parametrize(
    "text",
    [
        b"",
        b"{",
        b"[]",
        b"null",
        b"\xff\xfe",
        b"[" * 100_000,
        b'{"units": 7}',
        b'{"units": []}',
        b'{"units": "imperial", "dark": "yes", "technician": null}',
    ],
)
def test_a_spoilt_file_costs_nothing(tmp_path, text):
    (tmp_path / settings.FILE).write_bytes(text)
    assert settings.load(tmp_path) == Settings()


def test_what_is_understood_of_a_spoilt_file_counts(tmp_path):
    (tmp_path / settings.FILE).write_text('{"units": "us", "dark": 3, "technician": "K"}')
    assert settings.load(tmp_path) == Settings(UnitSystem.US, technician="K")


def test_nothing_is_left_beside_the_file_that_was_saved(tmp_path):
    settings.save(tmp_path, Settings())
    settings.save(tmp_path, Settings(UnitSystem.US))
    assert [p.name for p in tmp_path.iterdir()] == [settings.FILE]
