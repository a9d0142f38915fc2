"""Drawing goes on though the window is gone, so that the program can end in order."""

import io
import sys

from faulttree.ui.terminal import LastingOutput, lasting_output


class Gone(io.StringIO):
    """A terminal that has gone away."""

    def write(self, text: str) -> int:
        raise OSError(5, "Input/output error")

    def flush(self) -> None:
        raise OSError(5, "Input/output error")


def test_what_can_no_longer_be_shown_is_dropped():
    output = LastingOutput(Gone())
    assert output.write("step") == 0
    output.flush()


def test_what_can_be_shown_is_shown():
    shown = io.StringIO()
    output = LastingOutput(shown)
    assert output.write("step") == 4
    assert output.isatty() is False
    assert shown.getvalue() == "step"


def test_it_is_put_back_as_it_was():
    before = sys.__stderr__
    with lasting_output():
        assert isinstance(sys.__stderr__, LastingOutput)
    assert sys.__stderr__ is before
