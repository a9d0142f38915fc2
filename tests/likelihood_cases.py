"""Each check of tables of likelihoods by a change to the sound example that breaks it alone.

A case is: the check, the text and the text in its place, and how the rest of the line begins at the
place where it is found.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Case:
    """One broken table."""

    check: str
    old: str
    new: str
    found: str
    severity: str = "error"


TABLES = (
    Case("not-beside", "tree: lamp", "tree: lmap", "lmap"),
    Case("unknown-step", "  fuse-look:", "  fuse-loook:", "fuse-loook:"),
    Case("step-kind", "  ground-drop:", "  lamp-share:", "lamp-share:"),
    Case("unknown-suspect", "    bulb: {open", "    blub: {open", "blub: {open"),
    Case("missing-healthy", "    healthy: {filament whole: 98 %}\n", "", "lamp-resistance:"),
    Case("unknown-band", "{full feed: 97 %, weak", "{ful feed: 97 %, weak", "ful feed: 97"),
    Case("unknown-outcome", "{both light: 97 %}", "{both lit: 97 %}", "both lit"),
    Case("share-sum", "sound: 98 %, lossy: 2 %", "sound: 98 %, lossy: 5 %", "healthy: {sound: 98"),
    Case("share-sum", "sound: 98 %, lossy: 2 %", "sound: 90 %, lossy: 2 %", "healthy: {sound: 90"),
    Case("share-sum", "dark: 98 %}", "dark: 98 %, glows dim: 4 %}", "others: {stays dark: 98 %, g"),
    Case("share-amount", "{one lights: 96 %}", "{one lights: -6 %}", "-6 %"),
    Case("share-amount", "{one lights: 96 %}", "{one lights: 106 %}", "106 %"),
    Case("share-amount", "{one lights: 96 %}", "{one lights: 3 V}", "3 V"),
    Case("share-amount", "random, chance: 40 %", "random, chance: 100 %", "100 %"),
    Case("suspect-name", "  fuse: {words", "  healthy: {words", "healthy: {words"),
    Case(
        "doubled-suspect",
        "{words: fuse blown, part: fuse F4, weight: 2}",
        "{words: bulb burnt out, part: reversing lamp}",
        "fuse: {words: bulb",
    ),
    Case(
        "untold-suspect",
        "    ground: {lossy: 95 %, sound: 5 %}\n",
        "",
        "ground:",
        "warning",
    ),
)
"""Every check of tables."""
