"""Shares, cars and readings in words."""

import math

import pytest
from proofs import cargo, words

from faulttree.core.bench.suspects import Row
from faulttree.core.proof.judged import Span
from faulttree.core.uncertain import Uncertain, exactly
from faulttree.core.usual_instruments import one_per_class
from faulttree.render.proof_words import Words, car, cars_among, cars_of, own_instruments, percent


@pytest.mark.parametrize(
    ("share", "text"),
    [
        (0.0, "0.0 %"),
        (1e-6, "<0.1 %"),
        (0.125, "12.5 %"),
        (0.99996, "99.9 %"),
        (1.0 - 1e-12, "100.0 %"),
        (1.0, "100.0 %"),
    ],
)
def test_only_a_whole_share_is_a_hundred_and_only_nothing_is_zero(share, text):
    assert percent(share) == text


def _rows(*names: str) -> list[Row]:
    bench, _ = cargo()
    rows = [row for row in bench.rows if row.suspect and row.suspect.id == "plug.series"]
    named = {f"{row.form.words} {row.supply}": row for row in rows}
    return [named[name] for name in names] if names else rows


@pytest.mark.parametrize(
    ("names", "text"),
    [
        (("mild weak",), "mild at weak"),
        (("mild weak", "mild normal", "mild charging"), "mild"),
        (("mild weak", "typical weak", "severe weak"), "at weak"),
        (("mild weak", "mild normal", "typical weak", "typical normal"),
         "mild, typical at weak, normal"),
        (("severe charging", "mild weak"), "severe at charging; mild at weak"),
        (("severe charging", "severe weak", "severe normal", "mild weak"), "severe; mild at weak"),
    ],
)  # fmt: skip
def test_cars_are_told_by_what_sets_them_apart(names, text):
    assert cars_among(_rows(*names), _rows()) == text


def test_all_cars_of_a_fault_need_no_words():
    assert cars_among(reversed(_rows()), _rows()) == ""


def test_one_car_is_told_in_full():
    (row,) = _rows("mild weak")
    assert (car(row), cars_of((row,))) == ("plug.series mild at weak", "mild at weak")
    assert car(cargo()[0].rows[0]) == "healthy at weak"


def _span(low: float, high: float | None = None, error: float = 0.0) -> Span:
    lower = Uncertain(low, rest=error)
    return Span(lower, lower if high is None else Uncertain(high, rest=error))


@pytest.mark.parametrize(
    ("step", "span", "text"),
    [
        ("lamp-feed", _span(12.4321, error=0.082), "12.43 V ±0.08 V"),
        ("lamp-feed", _span(1.0, 12.4321, 0.082), "1.000 to 12.43 V ±0.08 V"),
        ("lamp-feed", _span(0.0, 0.2, 0.0012), "0.0000 to 0.2000 V ±0.0012 V"),
        ("plug-loss", _span(3.0587, error=0.0553), "3.06 V ±0.06 V"),
        ("filament", Span(exactly(math.inf), exactly(math.inf)), "OL (open circuit)"),
        ("filament", _span(0.7, error=0.307), "0.7 Ω ±0.3 Ω"),
    ],
)
def test_a_reading_has_the_digits_of_the_instrument_and_its_error(step, span, text):
    tree = cargo()[0].tree
    assert words(tree).reading(span, step) == text
    assert words(tree, only_ascii=True).reading(span, step) == (
        text.replace("±", "+/-").replace("Ω", "ohm")
    )


def test_places_stand_for_names_and_the_vehicle_sheet_knows_better():
    tree, used = cargo()[0].tree, one_per_class(())
    assert Words(tree, used).title("switch-feed") == "Voltage at the lamp terminal of the switch"
    told = Words(tree, used, told={"switch-out": "cavity 2 of S9"})
    assert told.title("switch-feed") == "Voltage at the cavity 2 of S9"


def test_instruments_of_ones_own_are_named_where_the_tree_uses_them():
    tree, used = cargo()[0].tree, one_per_class(())
    assert own_instruments(words(tree)) == ()
    meter = used[tree.instruments[0]].model_copy(update={"id": "old-meter", "name": "Old meter"})
    own = Words(tree, one_per_class((meter,)))
    assert [i.name for i in own_instruments(own)] == ["Old meter"]
