"""What is asked of a terminal before it is drawn on."""

import locale

import pytest

from faulttree.cli import terminal


@pytest.mark.parametrize(
    ("variables", "encoding", "is_unicode"),
    [
        ({"LC_ALL": "de_DE.UTF-8"}, "ANSI_X3.4-1968", True),
        ({"LANG": "en_US.utf8"}, "ANSI_X3.4-1968", True),
        ({"LC_ALL": "C", "LANG": "en_US.UTF-8"}, "ANSI_X3.4-1968", False),
        ({"LC_CTYPE": "C.UTF-8"}, "UTF-8", True),
        ({"LANG": "de_DE.ISO-8859-1"}, "ISO-8859-1", False),
        ({}, "UTF-8", True),
        ({}, "ANSI_X3.4-1968", False),
    ],
)
def test_the_locale_asked_for_tells_whether_all_letters_are_shown(
    variables: dict[str, str],
    encoding: str,
    is_unicode: bool,
    monkeypatch: pytest.MonkeyPatch,
):
    for name in ("LC_ALL", "LC_CTYPE", "LANG"):
        monkeypatch.delenv(name, raising=False)
    for name, value in variables.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr(locale, "getencoding", lambda: encoding)
    assert terminal.is_unicode() is is_unicode


def test_a_pipe_is_no_terminal(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("TERM", "xterm")
    assert not terminal.is_terminal()
    assert not terminal.full_screen_possible()
