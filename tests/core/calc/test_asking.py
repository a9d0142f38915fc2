"""Inputs asked for one after the other."""

import pytest
from sums import done

from faulttree.core.calc.asking import Asking
from faulttree.core.calc.registry import SUMS
from faulttree.core.calc.sums import SumRefused
from faulttree.core.reading import ReadingRefused
from faulttree.core.units import UnitSystem


def asking(name: str, *typed: str, system: UnitSystem = UnitSystem.METRIC) -> Asking:
    """A sum asked for, with these answers given."""
    now = Asking(SUMS[name], system)
    for text in typed:
        now = now.take(text)
    return now


def asked(now: Asking) -> str:
    """Name of the input asked for now."""
    return now.asked.name if now.asked else ""


def test_needed_inputs_then_optional_ones():
    now = asking("wire-drop")
    for name, text in [("length", "5"), ("size", "2.5mm2"), ("current", "10"), ("temperature", "")]:
        assert asked(now) == name
        assert now.is_complete is (name == "temperature")
        now = now.take(text)
    assert asked(now) == ""
    assert now.answered().found == done("wire-drop 5m 2.5mm2 10A").found


def test_of_several_that_serve_only_as_many_are_asked_as_it_takes():
    now = asking("ohm", "12", "")
    assert asked(now) == "resistance"
    now = now.take("6")
    assert asked(now) == ""
    assert now.answered().found == done("ohm 12V 6ohm").found


def test_an_input_that_may_be_given_again_is_asked_until_nothing_is_typed():
    now = asking("parallel", "20", "30")
    assert asked(now) == "resistance"
    assert now.prompt(now.asked) == "resistance 3 [Ω]; Enter ends"
    assert now.is_complete
    now = now.take("")
    assert asked(now) == ""
    assert now.answered().found[0].value == pytest.approx(12)


def test_going_back_asks_the_same_again():
    for typed in (("5", "2.5mm2"), ("5",)):
        now = asking("wire-drop", *typed)
        assert now.back() == asking("wire-drop", *typed[:-1])
    assert asking("parallel", "20", "30", "").back() == asking("parallel", "20", "30")
    assert asking("parallel", "20", "30").back() == asking("parallel", "20")
    assert asking("ohm", "", "3").back() == asking("ohm", "")
    assert asking("ohm").back() == asking("ohm")


def test_what_stands_in_for_another_input_is_asked_for_only_without_it():
    now = asking("superheat", "190kPa", "9C", "R134a")
    assert asked(now) == "altitude"
    assert asked(now.take("1500m")) == ""
    now = now.take("")
    assert asked(now) == "barometer"
    assert now.answered().found == done("superheat 190kPa 9C R-134a").found
    now = now.take("84.556kPa")
    assert list(now.answered().given) == ["low", "pipe", "refrigerant", "barometer"]
    by_altitude = done("superheat 190kPa 9C R-134a altitude=1500m").found[0].value
    assert now.answered().found[0].value == pytest.approx(by_altitude, abs=1e-3)


@pytest.mark.parametrize(
    ("now", "typed", "words"),
    [
        (asking("wire-drop"), "", "length is needed; type 5m or 16ft."),
        (asking("wire-drop"), "5 V", "V is a unit of voltage; length is typed as 5m or 16ft."),
        (asking("wire-drop", "5"), "2.5", "2.5 may be square millimetres or a gauge"),
        (asking("fuse-current"), "3", "Type drop with its unit, as 1.3mV."),
        (asking("fuse-current", "3mV", "10"), "glass", "type is one of standard, mini, maxi."),
        (asking("parallel"), "", "resistance is needed"),
    ],
)
def test_what_is_refused_is_asked_again(now, typed, words):
    with pytest.raises(ReadingRefused, match=words.replace(".", r"\.")):
        now.take(typed)


@pytest.mark.parametrize(
    ("now", "prompt"),
    [
        (asking("wire-drop"), "length [m]: of wire the current goes through"),
        (asking("wire-drop", system=UnitSystem.US), "length [ft]: of wire"),
        (asking("wire-drop", "5", "2.5mm2", "3"), "of the wire, as 80C or 176F; Enter: 20C"),
        (asking("fuse-current", "3mV", "10"), "type: standard, mini, maxi"),
        (asking("charge-balance", "800g", "600g", ""), "evacuated: yes, no; Enter: yes"),
        (asking("fuse-current"), "drop: across it, as 1.3mV"),
        (asking("divider", "5", "1k", "1k"), "as 4.7k or 25mohm; Enter leaves it out"),
    ],
)
def test_the_prompt_says_what_to_type(now, prompt):
    assert prompt in now.prompt(now.asked)


def test_inputs_that_contradict_each_other_are_told_when_the_sum_is_done():
    now = asking("pulled-up", "0.8", "5", "2k")
    assert now.is_complete
    with pytest.raises(SumRefused, match="The line cannot be above"):
        now.answered()
