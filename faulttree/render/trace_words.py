"""What a trace speaks of, in words: times as its file tells them, durations, readings, rates."""

import math
from dataclasses import dataclass
from functools import cached_property

from faulttree.core.trace.findings import Findings
from faulttree.core.trace.limits import Side
from faulttree.core.trace.moments import DAY_S, TimeKind, shown_clock, shown_date
from faulttree.render.charset import in_ascii
from faulttree.render.plain_text import safe_line

_MOST_DECIMALS = 6
_MOST_READING_DECIMALS = 4
_NOUNS = {Side.BELOW: "dropout", Side.ABOVE: "excursion"}


@dataclass(frozen=True)
class TraceWords:
    """How the things of one trace are written.

    Attributes:
        findings: what was found in it.
        file: the file's name.
        only_ascii: other letters are replaced by what stands for them.
    """

    findings: Findings
    file: str
    only_ascii: bool = False

    def text(self, text: str) -> str:
        """A text, safe to show, on one line."""
        shown = safe_line(text)
        return in_ascii(shown) if self.only_ascii else shown

    @property
    def name(self) -> str:
        """What the column is called."""
        return self.text(self.findings.columns.name)

    @property
    def noun(self) -> str:
        """What one of the things found is called."""
        return _NOUNS[self.findings.limits.side]

    @property
    def one(self) -> str:
        """One of them."""
        return f"{'an' if self.noun[0] in 'aeiou' else 'a'} {self.noun}"

    def counted(self, number: int, noun: str = "") -> str:
        """How many there are of something; of the things found, if not said."""
        return f"{number:,} {noun or self.noun}{'' if number == 1 else 's'}"

    @property
    def furthest(self) -> str:
        """What the reading furthest from the usual level is called."""
        return "lowest" if self.findings.limits.side is Side.BELOW else "highest"

    def reading(self, number: float) -> str:
        """A reading, with as many decimals as the file has."""
        return self._with_unit(f"{number:.{self._reading_decimals}f}")

    def level(self, number: float) -> str:
        """A limit or a level, with the digits it needs."""
        return self._with_unit(f"{number:.6g}" if abs(number) < 1e6 else f"{number:.0f}")

    def time(self, at_s: float) -> str:
        """When something was, as the file tells the time."""
        told = self.findings.surveyed.began + at_s
        kind = self.findings.columns.time_kind
        if kind is TimeKind.NUMBER:
            return f"{told:.{self.time_decimals}f} s"
        clock = shown_clock(told, self.time_decimals)
        if kind is TimeKind.STAMP and self._passes_midnight:
            return f"{self.date(at_s)} {clock}"
        return clock

    def date(self, at_s: float) -> str:
        """The date of something; empty where the file tells none."""
        columns = self.findings.columns
        if columns.time_kind is not TimeKind.STAMP:
            return ""
        days = (self.findings.surveyed.began + at_s) // DAY_S
        return shown_date(columns.origin.day + int(days))

    def duration(self, seconds: float) -> str:
        """How long something lasts, no finer than samples can tell."""
        decimals, finest_s = self.time_decimals, self.findings.surveyed.sampling.resolution_s
        if seconds < finest_s / 2:
            return f"< {span(finest_s)}"
        if seconds < 0.9995:
            return f"{seconds * 1000:.{max(0, decimals - 3)}f} ms"
        if seconds < 120:
            return f"{seconds:.{min(decimals, 3)}f} s"
        minutes, rest = divmod(round(seconds), 60)
        if minutes < 120:
            return f"{minutes} min {rest} s"
        return f"{minutes // 60} h {minutes % 60} min"

    @cached_property
    def time_decimals(self) -> int:
        """Decimals that tell one time from the next."""
        finest_s = self.findings.surveyed.sampling.resolution_s
        return max(0, min(_MOST_DECIMALS, math.ceil(-math.log10(finest_s) - 0.001)))

    @cached_property
    def _passes_midnight(self) -> bool:
        surveyed = self.findings.surveyed
        return surveyed.began // DAY_S != (surveyed.began + surveyed.duration_s) // DAY_S

    @cached_property
    def _reading_decimals(self) -> int:
        findings = self.findings
        return min(_MOST_READING_DECIMALS, findings.layout.decimals[findings.columns.value])

    def _with_unit(self, number: str) -> str:
        return self.text(f"{number} {self.findings.columns.unit.symbol}")


def span(seconds: float) -> str:
    """A length of time that was asked for, or that lies between samples; to three digits."""
    for unit, factor in (("s", 1.0), ("ms", 1e3), ("µs", 1e6)):
        if seconds * factor >= 0.9995:
            return f"{seconds * factor:.3g} {unit}"
    return f"{seconds * 1e9:.3g} ns"


def per_hour(rate: float) -> str:
    """A rate per hour, to three digits at most."""
    if rate == 0:
        return "0"
    decimals = max(0, 2 - math.floor(math.log10(rate)))
    text = f"{rate:,.{min(decimals, 6)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def percent(share: float) -> str:
    """A share in percent, to three digits at most; not 0 where it is above."""
    number = share * 100
    return f"{number:.3g} %" if number < 100 else "100 %"


def chance(number: float) -> str:
    """A chance: `0.013`, `0.0004`, `less than 0.0001`."""
    if number < 0.0001:
        return "less than 0.0001"
    return f"{number:.2g}"
