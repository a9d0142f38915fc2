"""What is said of two gauges: the same in the terminal, in a picture and to a screen reader."""

from collections.abc import Iterator
from dataclasses import dataclass

from faulttree.core.figures import show, show_measured
from faulttree.core.units import INHG_PA, Quantity, UnitSystem
from faulttree.render.gauge_pair import Expected, Gauge, GaugePair, GaugeReading
from faulttree.render.scale import SIGNS
from faulttree.render.span import span as span_of

TITLE = "Low-side and high-side pressure"
_GAUGE = Quantity.GAUGE_PRESSURE


@dataclass(frozen=True, slots=True)
class Verdict:
    """What a gauge tells.

    Attributes:
        text: in words, the name of the gauge first.
        tone: good inside what is expected, fault outside it, unclear where that is not known;
            plain before measuring.
    """

    text: str
    tone: str = "plain"

    @property
    def signed(self) -> str:
        """The words behind the sign of the tone."""
        return f"{SIGNS.get(self.tone, ' ')} {self.text}".lstrip()


def verdict(gauge: Gauge, units: UnitSystem) -> Verdict:
    """What is read on a gauge, and how it lies to what is expected."""
    expected, reading = gauge.expected, gauge.reading
    if reading is None:
        told = f"expected {span(expected, units)}" if expected else gauge.why_none_expected
        return Verdict(f"{gauge.name}: not measured yet; {told}")
    told, tone = _compared(gauge, reading, units)
    note = f"; {reading.note}" if reading.note else ""
    return Verdict(f"{gauge.name}: {_read(gauge, reading, units)}{told}{note}", tone)


def _compared(gauge: Gauge, reading: GaugeReading, units: UnitSystem) -> tuple[str, str]:
    """How a reading lies to what is expected, and the tone of that."""
    expected = gauge.expected
    if expected is None:
        return f"; {gauge.why_none_expected}", "unclear"
    place = _place(expected, reading.value)
    told = f", {place} the expected {span(expected, units)}"
    touched = _touched(expected, reading)
    if touched:
        reach = "its limit of error reaches over " + " and ".join(touched)
        return f"{told}, but too close to call: {reach}", "unclear"
    return told, "good" if place == "inside" else "fault"


def reading_label(reading: GaugeReading, units: UnitSystem) -> str:
    """A reading as it stands beside its marker: `28 psi (193 kPa)`."""
    return show(reading.value, _GAUGE, units, reading.step or None)


def span(expected: Expected, units: UnitSystem) -> str:
    """What is expected, in each unit: `24 to 35 psi (165 to 241 kPa)`."""
    return span_of((expected.low, expected.high), _GAUGE, units)


def lines_below(pair: GaugePair) -> Iterator[str]:
    """Where what is expected comes from, the conditions, and the notes."""
    sources = {g.name: g.expected.source for g in pair.gauges if g.expected and g.expected.source}
    if len(sources) == len(pair.gauges) and len(set(sources.values())) == 1:
        yield f"Expected by: {pair.low.expected.source}" if pair.low.expected else ""
    else:
        yield from (f"{name}, expected by: {source}" for name, source in sources.items())
    if pair.conditions:
        yield f"Conditions: {pair.conditions}"
    yield from pair.notes


def legend(pair: GaugePair) -> Iterator[tuple[str, str]]:
    """The signs of the drawing that need a word, as (`expected`, words)."""
    if any(gauge.expected for gauge in pair.gauges):
        yield "expected", "expected"
    if any(gauge.reading for gauge in pair.gauges):
        yield "reading", "read"
    if any(gauge.scale.low_end < 0 for gauge in pair.gauges):
        yield "vacuum", "vacuum, below 0"


def _read(gauge: Gauge, reading: GaugeReading, units: UnitSystem) -> str:
    parts = [show_measured(reading.value, reading.error, _GAUGE, units, reading.step or None)]
    if reading.value < 0:
        is_metric = units is UnitSystem.METRIC
        parts.append("vacuum" if is_metric else f"{-reading.value / INHG_PA:.3g} inHg of vacuum")
    if not gauge.scale.holds(reading.value):
        end = "above" if reading.value > gauge.scale.high_end else "below"
        parts.append(f"off the scale {end}")
    return ", ".join(parts)


def _place(expected: Expected, value: float) -> str:
    if value < expected.low:
        return "below"
    return "above" if value > expected.high else "inside"


def _touched(expected: Expected, reading: GaugeReading) -> list[str]:
    """The edges that lie within the limit of error of a reading."""
    edges = {"the lower edge": expected.low, "the upper edge": expected.high}
    return [
        name
        for name, edge in edges.items()
        if reading.error > 0 and abs(reading.value - edge) <= reading.error
    ]
