"""All sums, and how one is found."""

from difflib import get_close_matches

from faulttree.core.calc import (
    air,
    batteries,
    charges,
    clutches,
    coils,
    cycles,
    fuses,
    lamps,
    meters,
    ohms,
    pipes,
    pressures,
    resistors,
    thermistors,
    usual,
    wires,
)
from faulttree.core.calc.sums import Sum
from faulttree.core.search import search, searchable

FAMILIES: tuple[tuple[str, tuple[Sum, ...]], ...] = (
    ("Joints and loads", ohms.SUMS),
    ("Wires", wires.SUMS),
    ("Resistances and lines", resistors.SUMS),
    ("Meters", meters.SUMS),
    ("Lamps", lamps.SUMS),
    ("Coils", coils.SUMS),
    ("Thermistors", thermistors.SUMS),
    ("Fuses and batteries", (*fuses.SUMS, *batteries.SUMS)),
    (
        "Air conditioning",
        (*usual.SUMS, *pressures.SUMS, *pipes.SUMS, *air.SUMS, *charges.SUMS, *clutches.SUMS),
    ),
    ("Complaints that come and go", cycles.SUMS),
)
"""The sums by what they are about, in the order in which they are listed."""
SUMS: dict[str, Sum] = {each.name: each for _, sums in FAMILIES for each in sums}
"""Every sum by its name."""
_SEARCHABLE = tuple(
    searchable(each.name, [each.name], [each.title, each.keywords]) for each in SUMS.values()
)


class NoSuchSum(LookupError):
    """No sum has this name; the message names what comes near."""


def find_sum(name: str) -> Sum:
    """The sum of a name, or the only one whose name begins so.

    Raises:
        NoSuchSum: there is none, or there are several.
    """
    wanted = name.lower()
    if wanted in SUMS:
        return SUMS[wanted]
    begun = [each for each in SUMS if each.startswith(wanted)]
    if len(begun) == 1:
        return SUMS[begun[0]]
    near = begun or get_close_matches(wanted, SUMS, 3, 0.6) or [s.name for s in fitting(name)][:3]
    hint = f"Did you mean {' or '.join(near)}?" if near else "faulttree calc lists them all."
    raise NoSuchSum(f"There is no sum “{name}”. {hint}")


def fitting(words: str) -> list[Sum]:
    """Sums that fit what was typed, best first; all of them when nothing was."""
    typed = words.strip().lower()
    begun = [each for name, each in SUMS.items() if typed and name.startswith(typed)]
    found = [SUMS[key] for key in search(_SEARCHABLE, words)]
    return [*begun, *(each for each in found if each not in begun)]
