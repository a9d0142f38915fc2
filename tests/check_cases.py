"""Each check by a change to a sound document that breaks it and nothing else.

A case is: the check, the changes (text, text in its place), and the line it is found on.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Case:
    """One broken document."""

    check: str
    changes: tuple[tuple[str, str], ...]
    line: str
    severity: str = "error"


def _case(check: str, old: str, new: str, line: str, severity: str = "error") -> Case:
    return Case(check, ((old, new),), line, severity)


TREES = (
    _case(
        "unknown-step",
        "cannot: {go: remove-bypass}",
        "cannot: {go: remove-bypas}",
        "cannot: {go: remove-bypas}",
    ),
    _case("unknown-step", "start: battery-rest", "start: battery-rst", "start: battery-rst"),
    _case(
        "unknown-step",
        "at one moment., go: not-settled}",
        "at one moment., go: again}",
        "implausible: {advice: Battery and feed were not read at one moment., go: again}",
    ),
    _case(
        "loop",
        "    removes: [switch-bypass]\n    go: switch-worn\n    cannot: {go: switch-worn}",
        "    removes: [switch-bypass]\n    go: switch-worn\n    cannot: {go: fit-bypass}",
        "fit-bypass:",
    ),
    _case(
        "unreachable-step",
        "{name: neither lights, is: fault, go: not-here",
        "{name: neither lights, is: fault, go: not-settled",
        "not-here:",
    ),
    _case(
        "same-name",
        "{name: dim, is: fault",
        "{name: Bright, is: fault",
        "- {name: Bright, is: fault, go: feed-drop, means: The feed does not carry the current.}",
    ),
    _case(
        "same-name",
        "  facts:\n",
        "  facts:\n    lamp-feed: {ask: Colour of it}\n",
        "lamp-feed: {ask: Colour of it}",
    ),
    Case(
        "same-name",
        (
            ("as: ground-loss", "as: drop-allowed"),
            ("value: ground-loss / battery", "value: drop-allowed / battery"),
        ),
        "as: drop-allowed",
    ),
    _case("lead-positions", "    black-lead: the other contact\n", "", "lamp-resistance:"),
    _case(
        "lead-positions",
        "    black-lead: the other contact\n",
        "    black-lead: the other contact\n    at: the holder\n",
        "lamp-resistance:",
    ),
    _case(
        "instrument-fits",
        "instruments: [meter, test-light, load-lamp]",
        "instruments: [meter, test-light]",
        "with: load-lamp",
    ),
    Case(
        "instrument-fits",
        (
            ("instruments: [meter, test-light", "instruments: [meter, clamp, test-light"),
            ("quantity: resistance\n    with: meter", "quantity: resistance\n    with: clamp"),
        ),
        "with: clamp",
    ),
    _case(
        "band-gap",
        "{name: flat, is: fault, below",
        "{name: flat, is: fault, from: 0 V, below",
        "- {name: flat, is: fault, from: 0 V, below: 11.8 V, go: battery-flat, means: Too little "
        "to judge by.}",
    ),
    _case(
        "band-gap",
        "{name: charged, is: good, go",
        "{name: charged, is: good, below: 15 V, go",
        "- {name: charged, is: good, below: 15 V, go: lamp-seen, means: The reference is sound.}",
    ),
    _case(
        "band-gap",
        "{name: charged, is: good, go",
        "{name: charged, is: good, from: 12.3 V, go",
        "- {name: charged, is: good, from: 12.3 V, go: lamp-seen, means: The reference is sound.}",
    ),
    _case(
        "band-gap",
        "from: battery-voltage - 0.5 V",
        "from: battery-voltage - 0.4 V",
        "- {name: full feed, is: good, from: battery-voltage - 0.4 V, go: ground-drop,",
    ),
    _case(
        "band-overlap",
        "{name: charged, is: good, go",
        "{name: charged, is: good, from: 12.1 V, go",
        "- {name: charged, is: good, from: 12.1 V, go: lamp-seen, means: The reference is sound.}",
    ),
    _case(
        "band-edge",
        "{name: low, is: unclear, below: 12.2 V, go",
        "{name: low, is: unclear, go",
        "- {name: low, is: unclear, go: lamp-seen, means: Charge it before the car leaves.}",
    ),
    _case(
        "expression",
        "value: battery-voltage - feed\n",
        "value: battery-voltage - fed\n",
        "value: battery-voltage - fed",
    ),
    _case(
        "expression",
        "{name: sound, is: good, below: 0.2 V",
        "{name: sound, is: good, below: 0.2 ohm",
        "- {name: sound, is: good, below: 0.2 ohm, go: lamp-share, means: The ground carries the "
        "current.}",
    ),
    _case(
        "expression",
        "value: battery-voltage - feed\n",
        "value: (battery-voltage - feed) * (saturaton(5 psi) / 5 psi)\n",
        "value: (battery-voltage - feed) * (saturaton(5 psi) / 5 psi)",
    ),
    _case(
        "reference-kind",
        "    red-lead: one contact",
        "    as: battery-voltage\n    red-lead: one contact",
        "as: battery-voltage",
    ),
    Case(
        "band-order",
        (
            ("below: battery-voltage - 0.5 V, go", "below: battery-voltage - 12 V, go"),
            ("from: battery-voltage - 0.5 V, go", "from: battery-voltage - 12 V, go"),
        ),
        "- {name: weak feed, is: fault, below: battery-voltage - 12 V, go: feed-drop,",
    ),
    _case(
        "value-before-use",
        "value: battery-voltage - feed\n",
        "value: battery-voltage - ground-drop\n",
        "feed-drop:",
    ),
    _case(
        "value-before-use",
        "{name: sound, is: good, below: 0.2 V",
        "{name: sound, is: good, below: 0.05 A * lamp-resistance",
        "ground-drop:",
        "warning",
    ),
    _case(
        "placeholder",
        "title: Look at the reversing lamp\n",
        "title: Look at {the-lamp}\n",
        "title: Look at {the-lamp}",
    ),
    _case(
        "unused-need",
        "  facts:\n",
        "  facts:\n    lamp-maker: {ask: Maker of the lamp}\n",
        "lamp-maker: {ask: Maker of the lamp}",
        "warning",
    ),
    _case(
        "missing-need",
        "value: battery-voltage - feed\n",
        "value: (battery-voltage - feed) * (absolute(5 psi) / absolute(5 psi))\n",
        "value: (battery-voltage - feed) * (absolute(5 psi) / absolute(5 psi))",
    ),
    Case(
        "missing-need",
        (
            (
                "value: battery-voltage - feed\n",
                "value: (battery-voltage - feed) * (absolute(5 psi) / absolute(5 psi))\n",
            ),
            ("  values:\n", "  values:\n    altitude: {quantity: voltage, ask: Altitude}\n"),
        ),
        "altitude: {quantity: voltage, ask: Altitude}",
    ),
    _case(
        "unknown-caution",
        "cautions: [backprobe]",
        "cautions: [back-probe]",
        "cautions: [back-probe]",
    ),
    _case(
        "evidence",
        "evidence: [feed, ground-drop]",
        "evidence: [feed, bypass-seen]",
        "evidence: [feed, bypass-seen]",
    ),
    _case(
        "evidence",
        "evidence: [feed, ground-drop]",
        "evidence: [feed, ground-drp]",
        "evidence: [feed, ground-drp]",
    ),
    _case(
        "left-fitted",
        "    removes: [switch-bypass]\n",
        "",
        'fits: {switch-bypass: "fused lead from {switch-in} to {switch-out}"}',
        "warning",
    ),
    _case(
        "left-fitted",
        "removes: [switch-bypass]",
        "removes: [switch-bypass, relay-bypass]",
        "removes: [switch-bypass, relay-bypass]",
    ),
    _case(
        "change-list",
        '  - {version: "1.1.0", date',
        '  - {version: "1.2.0", date',
        '- {version: "1.2.0", date: "2026-11-25", text: The bypass is taken out again.}',
    ),
    _case("missing-key", "    why: The other half of the circuit.\n", "", "ground-drop:"),
    _case(
        "unknown-key",
        "    how: Stand behind",
        "    hwo: Stand behind",
        "hwo: Stand behind the car, a second person at the gear lever.",
    ),
    _case(
        "wrong-value",
        "key: out, engine: stopped",
        "key: out, engine: off",
        "set-up: {key: out, engine: off, complaint: any}",
    ),
    _case("unknown-format", "format: tree/1", "format: tree/2", "format: tree/2"),
)
"""Changes to the example tree."""

SHEETS = (
    _case("vehicle-value", "lamp-power: 1.75 A", "lamp-power: 1.75", "lamp-power: 1.75", "warning"),
    _case("vehicle-value", "lamp-power: 1.75 A", "lamp-power: 1.75 V", "lamp-power: 1.75 V"),
    _case(
        "vehicle-value",
        "lamp-power: 1.75 A",
        "lamp-power: 21 V / 0 ohm",
        "lamp-power: 21 V / 0 ohm",
    ),
    _case(
        "vehicle-value",
        "lamp-power: 1.75 A",
        "lamp-power: lamp-current",
        "lamp-power: lamp-current",
    ),
    _case(
        "vehicle-point",
        'lamp-ground: {connector: H7, cavity: "2", wire: brown, where: left tail lamp}',
        "lamp-ground: {note: Behind the trim.}",
        "lamp-ground: {note: Behind the trim.}",
    ),
)
"""Changes to its vehicle sheet, checked beside the tree."""
