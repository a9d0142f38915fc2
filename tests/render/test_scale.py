"""The scale: every band with its sign, edges under their joints, the reading where it lies."""

from pathlib import Path

import pytest
from golden import assert_golden

from faulttree.render.scale import DrawnBand, Mark, as_text, draw

GOLDEN = Path(__file__).parent / "golden"
BANDS = (
    DrawnBand("no feed", "fault"),
    DrawnBand("weak", "fault", "1 V"),
    DrawnBand("low", "unclear", "11.8 V"),
    DrawnBand("full feed", "good", "12.1 V"),
    DrawnBand("overcharged", "fault", "14.8 V"),
)
MARKS = {
    "none": None,
    "in the middle": Mark(1, 0.5, (1, 0.45), (1, 0.55), "6.4 V ±0.05 V"),
    "at the lower edge": Mark(1, 0.0, (0, 0.99), (1, 0.01), "1.00 V ±0.01 V"),
    "at the upper end": Mark(1, 1.0, (1, 0.98), (1, 1.0), "11.79 V ±0.08 V"),
    "error over both bands": Mark(1, 0.2, (0, 0.0), (1, 1.0), "3 V ±9 V"),
}


def _pictures(width):
    for count in range(2, 6):
        for name, mark in MARKS.items():
            lines = as_text(draw(BANDS[:count], width, mark))
            assert max(map(len, lines)) <= width
            yield f"--- {count} bands, {width} columns, mark {name}\n" + "\n".join(lines) + "\n"


@pytest.mark.parametrize("width", [78, 40])
def test_the_scale_looks_as_it_should(width):
    assert_golden(GOLDEN / f"scale-{width}.txt", "".join(_pictures(width)))


def test_every_row_of_a_scale_is_as_wide_as_it_may_be():
    rows = draw(BANDS[:3], 78, MARKS["in the middle"])
    assert [len("".join(s.text for s in row)) for row in rows[:4]] == [78, 78, 78, 78]


def test_bands_that_have_no_room_beside_each_other_are_listed():
    lines = as_text(draw(BANDS, 40))
    assert len(lines) == 5
    assert lines[1] == " ! weak: from 1 V below 11.8 V"


def test_a_list_marks_the_band_of_the_reading_and_those_its_error_reaches():
    lines = as_text(draw(BANDS, 40, MARKS["error over both bands"]))
    assert [line[0] for line in lines] == ["-", ">", " ", " ", " ", ">"]


def test_edge_labels_that_have_no_room_beside_each_other_make_it_a_list():
    long = [BANDS[0]]
    long += [DrawnBand(b.name, b.speaks, "battery-voltage - drop-allowed") for b in BANDS[1:4]]
    lines = as_text(draw(long, 78))
    assert len(lines) == 4
    assert all("battery-voltage - drop-allowed" in line for line in lines[1:])


@pytest.mark.parametrize("width", range(12, 120, 3))
@pytest.mark.parametrize("count", [2, 3, 4, 5])
def test_labels_never_overlap_and_nothing_is_wider_than_the_screen(width, count):
    bands = [BANDS[0]]
    bands += [DrawnBand(b.name, b.speaks, f"{n}{'x' * 8}{n}") for n, b in enumerate(BANDS[1:count])]
    lines = as_text(draw(bands, width, MARKS["error over both bands"]))
    assert max(map(len, lines)) <= width
    if width > 40:
        assert all(any(b.from_label in line for line in lines) for b in bands)


def test_a_long_name_is_cut_and_its_sign_kept():
    lines = as_text(draw([DrawnBand("x" * 60, "good"), DrawnBand("y", "fault", "1 V")], 40))
    assert lines[0].startswith("+ xxx")
    assert "…" in lines[0]


def test_the_sign_tells_what_a_band_speaks_for_without_colour():
    text = as_text(draw(BANDS[1:4], 78))[0]
    assert [sign for sign in text if sign in "+?!"] == ["!", "?", "+"]
