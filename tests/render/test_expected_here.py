"""Expected readings as a technician reads them: one band after the other, least numbers first."""

from math import inf

from builders import Walk, lamp_with

from faulttree.core.bench.suspects import Form, Row, Suspect
from faulttree.core.circuit.attached import Flag
from faulttree.core.circuit.faults import Comes, Severity
from faulttree.core.proof.expected import Expected
from faulttree.core.proof.judged import Judged, Span
from faulttree.core.uncertain import Uncertain, exactly
from faulttree.core.units import Quantity, UnitSystem
from faulttree.render.expected_here import expected_lines

EDGES = (exactly(1.0), exactly(12.1))


def _suspect(words: str, *ohms: float, comes: bool = False) -> Suspect:
    forms = tuple(Form(s, o, Quantity.RESISTANCE) for s, o in zip(Severity, ohms, strict=False))
    when = Comes("vibration", 0.3) if comes else None
    return Suspect(words.replace(" ", "-"), "part", words, 1.0, when, forms or (Form(),))


def _car(
    suspect: Suspect | None,
    low: float,
    bands: tuple[int, ...],
    *,
    high: float | None = None,
    form: int = 0,
    flags: int = 0,
    supply: str = "this battery",
    edges: tuple[Uncertain, ...] = EDGES,
) -> Expected:
    lower = Uncertain(low, {"meter": 0.08})
    upper = lower if high is None else Uncertain(high, {"meter": 0.08})
    row = Row(suspect, suspect.forms[form] if suspect else Form(), supply, 1.0)
    return Expected(0, row, Span(lower, upper), Judged(bands, edges), flags=flags)


def _lines(*cars: Expected, step: str = "feed", units: UnitSystem = UnitSystem.METRIC) -> list[str]:
    walk = Walk(tree=lamp_with(), units=units)
    lines = expected_lines(walk.state, step, cars)
    return [f"{line.label}: {line.text}" if line.label else line.text for line in lines]


def test_faults_stand_under_their_bands_the_least_numbers_first():
    wire, plug = _suspect("wire: corroded", 1.0, 5.0), _suspect("plug: open")
    assert _lines(
        _car(None, 12.54, (2,)),
        _car(wire, 10.89, (1,), form=0),
        _car(wire, 6.379, (1,), form=1),
        _car(plug, 0.0, (0,)),
    ) == [
        "Healthy: 12.54 V ±0.08 V: + full feed",
        "! no feed: below 1 V",
        "  0 V: plug: open",
        "! weak feed: from 1 V below 12.1 V",
        "  10.89 V (1 Ω), 6.379 V (5 Ω): wire: corroded",
        "+ full feed: from 12.1 V",
        "Note: Edges are those of the healthy car; under a fault they may move.",
    ]


def test_faults_with_the_same_numbers_share_a_line_and_those_of_one_part_its_name():
    faults = [
        _suspect(words) for words in ("plug: open", "relay: stuck", "plug: lost", "mud inside")
    ]
    found = _lines(_car(None, 12.54, (2,)), *(_car(f, 0.0, (0,)) for f in faults))
    assert "  0 V: plug: open, lost; relay: stuck; mud inside" in found


def test_a_size_that_reads_as_healthy_stands_at_the_end():
    wire = _suspect("wire: corroded", 0.1, 5.0)
    found = _lines(
        _car(None, 12.54, (2,)),
        _car(wire, 12.50, (2,), form=0),
        _car(wire, 6.0, (1,), form=1),
    )
    assert "  6 V (5 Ω): wire: corroded" in found
    assert "As on a healthy car: wire: corroded (0.1 Ω)" in found


def test_a_reading_is_not_like_a_healthy_one_in_another_band_or_beyond_the_error():
    near, far = _suspect("near: low"), _suspect("far: low")
    found = _lines(
        _car(None, 12.14, (2,)),
        _car(near, 12.08, (1, 2)),
        _car(far, 12.30, (2,)),
    )
    assert found[found.index("! weak feed or + full feed: too close to call") + 1].endswith(
        "near: low"
    )
    assert "  12.3 V: far: low" in found
    assert not any("As on a healthy car" in line for line in found)


def test_over_several_batteries_numbers_and_edges_are_ranges():
    wire = _suspect("wire: corroded", 1.0)
    cars = [
        _car(fault, volts, bands, supply=supply, edges=(exactly(1.0), exactly(edge)))
        for supply, edge, healthy, ill in (
            ("weak", 11.9, 12.4, 10.7),
            ("charging", 12.2, 12.7, 11.0),
        )
        for fault, volts, bands in ((None, healthy, (2,)), (wire, ill, (1,)))
    ]
    found = _lines(*cars)
    assert (
        found[0]
        == "Healthy: weak 12.40 V ±0.08 V: + full feed; charging 12.70 V ±0.08 V: + full feed"
    )
    assert "! weak feed: from 1 V below 11.9–12.2 V" in found
    assert "  10.7 to 11 V: wire: corroded" in found


def test_what_must_be_said_stands_beside_the_number_or_in_its_place():
    swinging, dead, blown = _suspect("relay: weak"), _suspect("fuse: open"), _suspect("lamp: short")
    without = Expected(0, Row(dead, Form(), "this battery", 1.0), flags=Flag.METER_FUSE)
    found = _lines(
        _car(None, 12.54, (2,)),
        _car(swinging, 2.0, (1,), high=9.0, flags=Flag.UNSTABLE),
        _car(blown, 0.0, (0,), flags=Flag.FUSE_BLOWN),
        without,
    )
    assert "  2 to 9 V, it swings: relay: weak" in found
    assert "  0 V, a fuse blows: lamp: short" in found
    assert found[found.index("In no band: outside what this point can show") + 1] == (
        "  the meter's own fuse blows: fuse: open"
    )


def test_what_is_not_known_yet_leaves_the_edges_as_they_are_written():
    drop = Judged((), trouble="drop-allowed is not known")
    row = Row(None, Form(), "this battery", 0.0)
    found = _lines(Expected(0, row, Span(exactly(0.4), exactly(0.4)), drop), step="feed-drop")
    assert found[:3] == [
        "Healthy: 0.4 V: in no band",
        "+ small: below drop-allowed",
        "! large: from drop-allowed",
    ]


def test_an_open_circuit_and_both_units():
    broken = _suspect("lamp: burnt out")
    row = Row(broken, broken.forms[0], "this battery", 1.0)
    ohms = (exactly(0.5), exactly(20.0))
    found = _lines(
        _car(None, 0.9, (1,), edges=ohms),
        Expected(0, row, Span(exactly(inf), exactly(inf)), Judged((2,), ohms)),
        step="lamp-resistance",
        units=UnitSystem.BOTH,
    )
    assert "  OL (open circuit): lamp: burnt out" in found


def test_a_fault_that_comes_and_goes_is_told_of():
    loose = _suspect("plug: loose", comes=True)
    (note,) = [
        line
        for line in _lines(_car(None, 12.54, (2,)), _car(loose, 0.0, (0,)))
        if "comes and goes" in line
    ]
    assert note == "Note: A fault that comes and goes reads as on a healthy car while it is away."
    assert not any(
        "comes and goes" in line
        for line in _lines(_car(None, 12.54, (2,)), _car(loose, 12.54, (2,)))
    )


def test_what_is_seen_stands_under_its_outcome():
    dim, dark = _suspect("plug: corroded", 1.0, 5.0), _suspect("fuse: open")

    def seen(suspect: Suspect | None, *outcomes: int, form: int = 0) -> Expected:
        of = suspect.forms[form] if suspect else Form()
        return Expected(0, Row(suspect, of, "this battery", 1.0), outcomes=outcomes)

    assert _lines(
        seen(None, 0),
        seen(dim, 0, form=0),
        seen(dim, 1, 2, form=1),
        seen(dark, 1),
        step="lamp-seen",
    ) == [
        "Healthy: + lights",
        "! stays dark: fuse: open",
        "! stays dark or ! glows dim: plug: corroded (5 Ω)",
        "As on a healthy car: plug: corroded (1 Ω)",
    ]
    (only,) = _lines(seen(None, 0, 1, 2), seen(dark, 0, 1, 2), step="lamp-seen")
    assert only == "Note: The circuit model cannot tell what is seen here."
