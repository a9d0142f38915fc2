"""Refrigerant line by line: what is asked, what a step is judged by, why no band is told."""

import io
from pathlib import Path

import superheat_tree

from faulttree.cli.plain import PlainWalk
from faulttree.core.units import UnitSystem
from faulttree.render.report_markdown import report_markdown
from faulttree.session import Session

R134A = "facts: {refrigerant: R-134a}\n"


def said(session: Session, *lines: str) -> str:
    """What the walk says to some lines, on one line."""
    left, out = iter(lines), io.StringIO()
    PlainWalk(session, lambda _ask, _question: next(left, None), out).run()
    return " ".join(out.getvalue().split())


def test_a_walk_from_refrigerant_to_superheat(tmp_path: Path) -> None:
    session = superheat_tree.case(tmp_path)
    text = said(session, "32 C", "500 m", "R134a", "why", "150 kPa", "5 C", "1")
    assert "Judged by: refrigerant R-134a; air outside 95.5 kPa absolute at 500 m" in text
    assert "Usual figures: US Army TM 5-3805-291-23-1 table 1" in text
    # The edges stand on the scale, with their unit: 105 and 210 kPa at sea level, 5.9 kPa more.
    assert "111 kPa" in text
    assert "216 kPa" in text
    assert "150 kPa ±17 kPa: ? usual." in text
    assert "Sum: suction-pipe - saturation(low-side)" in text
    assert session.position.step_id == "well"
    told = " ".join(report_markdown(session.state, "1").split())
    assert "judged by refrigerant R-134a; air outside 95.5 kPa absolute at 500 m" in told
    assert "usual figures from US Army TM 5-3805-291-23-1 table 1" in told


def test_altitude_left_open_is_told_as_sea_level(tmp_path: Path) -> None:
    session = superheat_tree.case(tmp_path, R134A, UnitSystem.US)
    text = said(session, "90 F", "", "30 psi", "50 F", "1")
    assert "air outside 14.7 psi absolute as at sea level, for the altitude is not known" in text


def test_where_no_band_can_be_told_it_is_said_before_and_after_the_reading(tmp_path: Path) -> None:
    session = superheat_tree.case(tmp_path, R134A)
    text = said(session, "15 C", "0 m", "150 kPa")
    why = "what gauges usually read is published for air of 21 to 43 °C (70 to 110 °F)"
    assert f"Note: No band can be told: {why}" in text
    assert "the walk goes on to “Pipe behind the evaporator”." in text
    assert f"cannot be judged. Not judged: {why}" in text
    assert session.position.step_id == "suction-pipe"
