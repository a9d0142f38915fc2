"""A walk that is judged by refrigerant and altitude: what is asked, and what it comes to."""

import pytest
import superheat_tree
from builders import Walk

from faulttree.core.units import UnitSystem
from faulttree.core.walk.asks import AskKind
from faulttree.core.walk.judge import judge
from faulttree.core.walk.results import Recorded, Refused

R134A = "facts: {refrigerant: R-134a}\n"
AT_500_M = "values: {altitude: 500 m}\n"


def walk(more: str = "", units: UnitSystem = UnitSystem.METRIC) -> Walk:
    return Walk(superheat_tree.tree(), superheat_tree.sheet(more), units=units)


def superheat(at: Walk) -> float:
    """The superheat worked out [K]."""
    judgement = next(v.judgement for v in at.at.path if v.step_id == "superheat")
    assert judgement is not None
    assert judgement.value is not None
    return judgement.value.value


def test_what_the_sheet_lacks_is_asked_for_at_the_first_step_that_needs_it() -> None:
    at = walk()
    assert at.ask.kind is AskKind.READING
    at.go("32 C")
    assert (at.ask.kind, at.ask.name) == (AskKind.VEHICLE_VALUE, "altitude")
    assert at.ask.hint.startswith("350 m or 1200 ft")
    at.go("500 m")
    assert (at.ask.kind, at.ask.name) == (AskKind.VEHICLE_TEXT, "refrigerant")
    at.go("r 134 a")
    assert at.ask.kind is AskKind.READING
    assert at.ask.step_id == "low-side"


def test_what_the_sheet_says_is_not_asked_for() -> None:
    at = walk(R134A + AT_500_M).go("32 C")
    assert at.ask.kind is AskKind.READING


@pytest.mark.parametrize(
    ("typed", "units", "said"),
    [
        ("500", UnitSystem.METRIC, "Type the altitude with its unit: 350 m or 1200 ft."),
        ("1200", UnitSystem.US, "Type the altitude with its unit: 350 m or 1200 ft."),
        ("9000 m", UnitSystem.METRIC, "That is no place for a car: an altitude lies between"),
        ("5 psi", UnitSystem.METRIC, "psi is a unit of pressure"),
    ],
)
def test_what_is_no_altitude_is_refused(typed: str, units: UnitSystem, said: str) -> None:
    at = walk(R134A, units).go("32 C")
    refused = at.answer(typed)
    assert isinstance(refused, Refused)
    assert refused.message.startswith(said)


@pytest.mark.parametrize(
    ("altitude", "expected"), [("", 34.56), ("0 m", 34.56), ("500 m", 33.59), ("1640 ft", 33.59)]
)
def test_superheat_at_an_altitude(altitude: str, expected: float) -> None:
    """R-134a at 30 psig: CoolProp 8.0.0, ASHRAE standard atmosphere; not known is sea level."""
    at = walk(R134A, UnitSystem.US).go("90 F", altitude, "30 psi", "50 F", "1")
    assert superheat(at) * 1.8 == pytest.approx(50 - expected, abs=0.1)
    assert at.labels == ["warm", "usual", "fair", "usual"]
    assert at.at.step_id == "well"


def test_the_refrigerant_told_decides() -> None:
    """R-12 at 30 psig boils at 32.0 °F: CoolProp 8.0.0."""
    at = walk(AT_500_M.replace("500 m", "0 m"), UnitSystem.US).go("90 F", "CFC-12", "30 psi")
    assert superheat(at.go("45 F", "1")) * 1.8 == pytest.approx(13.0, abs=0.1)


def test_vehicle_data_changed_later_changes_what_was_worked_out() -> None:
    at = walk(AT_500_M).go("32 C", "R-134a", "200 kPa", "10 C", "1")
    before = superheat(at)
    at.changing = "refrigerant"
    assert isinstance(at.answer("R-22"), Recorded)
    assert superheat(at) > before + 10


def test_the_edges_are_those_of_the_air_outside() -> None:
    """US Army TM 5-3805-291-23-1, table 1: 105 to 210 kPa with air of 32 °C, at sea level."""
    at = walk(R134A).go("32 C", "", "150 kPa")
    visit = at.at.path[1]
    assert visit.judgement is not None
    assert [edge.value for edge in visit.judgement.edges] == pytest.approx([105e3, 210e3])
    assert visit.label == "usual"


def test_where_nothing_is_published_the_walk_says_so_and_goes_on() -> None:
    at = walk(R134A + AT_500_M).go("15 C", "150 kPa")
    visit = at.at.path[1]
    assert visit.label == "cannot be judged"
    assert visit.judgement is not None
    assert "published for air of 21 to 43 °C" in visit.judgement.trouble
    assert at.at.step_id == "suction-pipe"
    assert superheat(at.go("5 C", "1")) > 0, "the reading itself still counts"


@pytest.mark.parametrize(
    ("typed", "trouble"),
    [
        ("R-410A", "“R-410A” is no refrigerant known here; known are R-134a, R-12, R-1234yf, R-22"),
        ("", "the refrigerant is not told; known are R-134a, R-12, R-1234yf, R-22"),
    ],
)
def test_a_refrigerant_that_is_not_known(typed: str, trouble: str) -> None:
    at = walk(AT_500_M).go("32 C", typed, "150 kPa", "10 C")
    assert at.labels == ["warm", "cannot be judged", "cannot be judged"]
    assert at.at.step_id == "refer"
    assert {v.judgement.trouble for v in at.at.path if v.judgement} == {"", trouble}


def test_a_pressure_that_no_table_holds() -> None:
    at = walk(R134A).go("32 C", "")
    at.answer("-89 kPa", confirmed=True)
    at.go("10 C")
    assert at.labels[-1] == "cannot be judged"
    assert "R-134a is known from 16 to 3379 kPa absolute" in at.at.path[-1].judgement.trouble


def test_a_worked_out_value_has_the_errors_of_both_readings() -> None:
    at = walk(R134A).go("32 C", "", "30 psi", "10 C", "1")
    event = at.state.answers["superheat"]
    step = at.tree.steps["superheat"]
    found = judge(at.state, step, event).value
    assert found is not None
    # 2 K of the thermometer, and 2 % of 120 psi on the low side: at 30 psi 1 psi is some 1 K.
    assert 2.0 + 2.4 * 0.8 < found.radius < 2.0 + 2.4 * 1.2
