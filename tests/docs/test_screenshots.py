"""The pictures of the documentation are made by the program and name nothing outside."""

import importlib.util
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SCRIPT = ROOT / "docs" / "screenshots.py"
PICTURES = SCRIPT.parent / "pictures"
NAMES = ("home", "measure", "measure-light", "too-close", "conclusion", "expected", "suspects")
NAMES += ("gauges",)


def _make(folder: Path) -> Path:
    spec = importlib.util.spec_from_file_location("screenshots", SCRIPT)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    module.make(folder)
    return folder


def _words(picture: Path) -> str:
    text = re.sub(r"<style>.*?</style>|<[^>]*>", " ", picture.read_text("utf-8"), flags=re.DOTALL)
    return " ".join(text.replace("&#160;", " ").split())


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return _make(tmp_path_factory.mktemp("pictures"))


def test_every_picture_is_made(made: Path):
    expected = {f"{name}.svg" for name in NAMES} | {"plain.txt"}
    assert {path.name for path in made.iterdir()} == expected


def test_a_picture_names_no_host_and_no_place_of_this_machine(made: Path):
    for path in made.iterdir():
        text = path.read_text("utf-8").replace("http://www.w3.org/2000/svg", "")
        assert "http" not in text
        assert "@font-face" not in text
        assert not re.search(r"/(tmp|home|root|work|Users)/", text), path.name


def test_the_pictures_show_what_they_are_named_after(made: Path):
    shown = {name: _words(made / f"{name}.svg") for name in NAMES}
    assert "what does the customer say?" in shown["home"]
    assert "Understood: 11.2 V" in shown["measure"]
    assert "Too close to call" in shown["too-close"]
    assert "Accept this conclusion" in shown["conclusion"]
    assert "Healthy:" in shown["expected"]
    assert "Suspects after 6 readings" in shown["suspects"]
    assert "R-134a: pressure and enthalpy" in shown["gauges"]
    assert shown["measure"] == shown["measure-light"]
    assert "too close to call" in (made / "plain.txt").read_text("utf-8")


def test_the_same_program_makes_the_same_bytes(made: Path, tmp_path: Path):
    again = _make(tmp_path)
    for path in made.iterdir():
        assert (again / path.name).read_bytes() == path.read_bytes()


def test_the_pictures_kept_show_what_the_program_shows_now(made: Path):
    """When this fails after a change that is meant: python docs/screenshots.py."""
    for path in made.iterdir():
        assert _words(PICTURES / path.name) == _words(path), path.name
