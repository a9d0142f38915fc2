"""Each check of bench sheets by a change to the sound example that breaks it and nothing else.

A case is: the check, the changes (file, text, text in its place), and how the rest of the line
begins at the place where it is found.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Case:
    """One broken example; `file` is the one it is found in."""

    check: str
    changes: tuple[tuple[str, str, str], ...]
    found: str
    severity: str = "error"
    file: str = "bench"


def _error(check: str, old: str, new: str, found: str) -> Case:
    return Case(check, (("bench", old, new),), found)


def _warning(check: str, old: str, new: str, found: str) -> Case:
    return Case(check, (("bench", old, new),), found, "warning")


BESIDE = (
    _error("not-beside", "tree: gate-lamp-dark", "tree: gate-lamp-drak", "gate-lamp-drak"),
    _error("not-beside", "circuit: gate-lamp", "circuit: lamp-of-gate", "lamp-of-gate"),
    Case("not-beside", (("tree", "start: battery-rest", "start: batery"),), "gate-lamp-dark"),
    Case("not-beside", (("tree", "title: The bulb", "title: [The bulb"),), "gate-lamp-dark"),
    Case("not-beside", (("circuit", "power: 21 W", "power: 21 V"),), "gate-lamp"),
    Case(
        "not-beside",
        (("tree", "circuit: gate-lamp", "circuit: gate-lam"),),
        "gate-lam",
        file="tree",
    ),
    Case(
        "not-beside",
        (("bench", "tree: gate-lamp-dark", "tree: gate-lamp-drak"),),
        "gate-lamp",
        file="tree",
    ),
    Case("other-circuit", (("tree", "circuit: gate-lamp\n", ""),), "gate-lamp-dark", "warning"),
    Case("other-circuit", (("tree", "circuit: gate-lamp", "circuit: gate-2"),), "gate-lamp"),
)
"""What sheet, tree and circuit model are to each other."""

TESTS = (
    _error("unknown-step", "  fuse-feed: {}", "  fuse-fed: {}", "fuse-fed: {}"),
    _error("unknown-step", "  ground-bad:", "  ground-baad:", "ground-baad:"),
    _error("step-kind", "  fuse-feed: {}", "  fuse-feed: {}\n  fit-bridge: {}", "fit-bridge: {}"),
    _error("step-kind", "  ground-bad:", "  feed: {names: [ground]}\n  ground-bad:", "feed: {n"),
    _error("missing-entry", "  fuse-feed: {}\n", "", "tests:"),
    _error("missing-entry", "  ground-bad:\n    names: [ground]\n", "", "verdicts:"),
    _error("missing-entry", "fits:\n  bridge: {bridges: [[fuse-out, body-plate]]}\n", "", "format"),
    _error("unknown-fit", "  bridge: {bridges", "  brigde: {bridges", "brigde:"),
    _error("test-reading", "gate-seen: {anything: true}", "gate-seen: {}", "gate-seen: {}"),
    _error("test-reading", "{anything: true}", "{anything: true, adds: 1 V}", "adds: 1 V"),
    _error("test-reading", "fuse-feed: {}", "fuse-feed: {outcomes: {nothing: []}}", "outcomes:"),
    _error("test-reading", "fuse-feed: {}", "fuse-feed: {unseen: [nothing]}", "unseen:"),
    _error("test-reading", "anything: true}", "anything: true, unseen: [look clean]}", "unseen:"),
    _error("test-reading", "fuse-feed: {}", "fuse-feed: {current: fuse}", "current: fuse"),
    _error("test-reading", "{of: housing}", "{red: lamp-in, black: lamp-out}", "red: lamp-in"),
    _error("test-reading", "housing-heat: {of: housing}", "housing-heat: {}", "housing-heat:"),
    _error("test-reading", "{current: lamp, elapsed: 2 s}", "{elapsed: 2 s}", "lamp-current:"),
    _error("test-reading", "over: {gate: [shut, raised]}", "over: {gate: [shut]}", "over:"),
    _error(
        "test-reading",
        "{value: 0.2 ohm}",
        "{value: 0.2 ohm, over: {gate: [shut, raised]}, keep: lowest}",
        "over:",
    ),
    _error("test-reading", "lead-ohms: {value: 0.2 ohm}", "lead-ohms: {of: housing}", "housing}"),
    _error("test-reading", "housing-heat: {of: housing}", "housing-heat: {of: gate}", "gate}"),
    _error("unknown-outcome", "      chimes: [", "      chime: [", "chime: ["),
    _error("unknown-outcome", "unseen: [smokes]", "unseen: [smoke]", "smoke]"),
    _error("missing-outcome", "    unseen: [smokes]\n", "", "outcomes:"),
    _error("missing-outcome", "      rattles: [{pulls: relay, is: [chatters]}]\n", "", "outcomes:"),
    _error("hidden-outcome", "unseen: [smokes]", "unseen: [smokes, lights]", "lights]"),
    _error(
        "hidden-outcome",
        "is dim: [{light: lamp, below: 60 % of normal, about: 15 %}]",
        "is dim: []",
        "lights: []",
    ),
)
"""How the tests of the tree are done."""

ACCESS = (
    _error("unknown-access", "needs: [gate-trim]", "needs: [gate-trim, gate-trm]", "gate-trm]"),
    _warning("unknown-access", ", needs: [gate-trim], minutes: 1", "", "gate-trim: {words"),
)
"""What tests share."""
PLACES = (
    _error("unknown-point", "  plate: {by", "  plates: {by", "plates: {by"),
    _error("unknown-point", "  plate: {by", "  spare: lamp-in\n  plate: {by", "spare:"),
    _error(
        "lead-place",
        "points:\n  plate: {by: gate, shut: body-plate, raised: gate-plate}\n",
        "",
        "plate-drop:",
    ),
    _error("lead-place", "  battery negative post: battery-negative\n", "", "battery-rest:"),
    Case(
        "lead-place",
        (
            ("bench", ", raised: gate-plate", ""),
            ("bench", "{inputs: {gate: shut}, loads", "{inputs: {gate: gate-at-fault}, loads"),
        ),
        "plate-drop:",
    ),
    _error("lead-place", "  battery negative post:", "  battery minus post:", "battery-rest:"),
    _warning(
        "unused-lead",
        "  battery positive post:",
        "  bare stud: fuse-out\n  battery positive post:",
        "bare stud:",
    ),
    _error("same-node", "[[fuse-out, switch-out]]", "[[fuse-out, fuse-out]]", "[fuse-out, fuse-"),
    _error("same-node", "voltage: [lamp-in, lamp-out]", "voltage: [lamp-in, lamp-in]", "[lamp-in"),
    _warning("same-node", "red: lamp-in, black: lamp-out", "red: lamp-in, black: lamp-in", "bulb-"),
    _error("unknown-node", "[[fuse-out, switch-out]]", "[[fuse-out, switch]]", "switch]]"),
    _error("unknown-node", "between: [lamp-in, battery", "between: [lamp-on, battery", "lamp-on"),
    _error("unknown-node", "red: lamp-in", "red: lamp-on", "lamp-on"),
    _error("unknown-node", "voltage: [lamp-in,", "voltage: [lamp-on,", "lamp-on"),
    _error("unknown-node", "post: battery-positive", "post: battery-plus", "battery-plus"),
    _error("unknown-node", "shut: body-plate", "shut: body-plat", "body-plat,"),
)
"""Where leads and bridges go."""

NAMES = (
    _error("unknown-element", "[plates.main, cut-out]", "[plates.man, cut-out]", "plates.man"),
    _error("unknown-element", "{current: lamp, elapsed", "{current: lmp, elapsed", "lmp"),
    _error("unknown-element", "{current: lamp, elapsed", "{current: relay, elapsed", "relay"),
    _error("unknown-element", "{light: lamp, below: 5 %}", "{light: fuse, below: 5 %}", "fuse"),
    _error("unknown-element", "{pulls: relay, is: [chat", "{pulls: rely, is: [chat", "rely"),
    _error("unknown-element", "{blown: fuse}", "{blown: lamp}", "lamp}"),
    _error("unknown-reading", "{reads: chime,", "{reads: relay,", "relay"),
    _error("unknown-input", "feed: {inputs: {gate:", "feed: {inputs: {gat:", "gat:"),
    _error("unknown-input", "{inputs: {housing: 20 C}}", "{inputs: {housng: 20 C}}", "housng:"),
    _error("unknown-input", "over: {gate:", "over: {gat:", "gat:"),
    _error("unknown-input", "{of: housing}", "{of: housng}", "housng"),
    _error("unknown-input", "{input: gear, is", "{input: geer, is", "geer"),
    _error("unknown-input", "{input: housing, from", "{input: housng, from", "housng"),
    _error("unknown-input", "at: {gear: forward}", "at: {geer: forward}", "geer:"),
    _error("unknown-input", "inputs: {housing: 110 C}", "inputs: {housng: 110 C}", "housng:"),
    _error("unknown-input", "{by: gate, shut", "{by: gat, shut", "gat,"),
    _error("unknown-input", "{by: gate, shut", "{shut", "plate: {shut"),
    _error("unknown-input", "    input: gate\n", "    input: gat\n", "gat"),
    _error("unknown-state", "gear: reverse}", "gear: revers}", "revers}"),
    _error("unknown-state", "over: {gate: [shut, raised]}", "over: {gate: [shut, open]}", "open]"),
    _error("unknown-state", "    of: [raised, shut]", "    of: [raised, open]", "open]"),
    _error("unknown-state", "{input: gear, is: [reverse]}", "{input: gear, is: [back]}", "back]"),
    _error("unknown-state", "{input: gear, is: [reverse]}", "{input: gear, from: 1 V}", "gear,"),
    _error(
        "unknown-state",
        "{input: housing, from: -30 C, below: 150 C}",
        "{input: housing, is: [hot]}",
        "housing,",
    ),
    _error("unknown-state", "at: {gear: forward}", "at: {gear: on}", "on}"),
    _error("unknown-state", "{by: gate, shut: body-plate", "{by: gate, open: body-plate", "open:"),
    _error("unknown-state", "{inputs: {housing: 20 C}}", "{inputs: {housing: hot}}", "hot}"),
    _error("unknown-state", "{gate: gate-at-fault}", "{gear: gate-at-fault}", "gate-at-fault}"),
    _error("unknown-state", "at: {gear: forward}", "at: {gate: gate-at-fault}", "gate-at-fault}"),
    _error("unknown-state", "is: [chatters]", "is: [rattles]", "rattles]"),
    _error("unknown-state", "is: [high]", "is: [on]", "on]"),
    _error("unknown-fault", "names: [lamp]", "names: [lmp]", "lmp]"),
    _error("unknown-fault", "[switch.main-open,", "[switch.mian-open,", "switch.mian-open"),
    _error("unknown-fault", "proof: {replaces: [lamp]}", "proof: {replaces: [bulb]}", "bulb]"),
    _error("unknown-fault", "faulty: [fuse.open]", "faulty: [fuse.opn]", "fuse.opn"),
    _error("unknown-fault", "faults: [relay, socket]", "faults: [relay, sockets]", "sockets]"),
    Case(
        "fault-left-out",
        (
            (
                "circuit",
                "words: ground of the gate}",
                "words: ground of the gate, faults: {open: {weight: 0}, series: {weight: 0}}}",
            ),
        ),
        "names: [ground]",
        "warning",
    ),
    Case(
        "same-name",
        (
            ("bench", "  gate-at-fault:\n", "  raised:\n"),
            ("bench", "{gate: gate-at-fault}", "{gate: raised}"),
        ),
        "raised:",
    ),
    Case(
        "same-name",
        (
            ("bench", "names: [mud-packed,", "names: [chime,"),
            ("bench", "  mud-packed: {", "  chime: {"),
        ),
        "chime: {",
    ),
)
"""Elements, inputs, states and faults of the circuit."""

VERDICTS = (
    _error(
        "verdict-names",
        "  ground-bad:\n",
        "  not-settled: {names: [ground]}\n  ground-bad:\n",
        "not-settled:",
    ),
    _error(
        "verdict-proof",
        "    names: [battery]\n",
        "    names: [battery]\n    proof: {replaces: [battery]}\n",
        "proof: {replaces: [battery]}",
    ),
    _error("verdict-proof", "proof: {replaces: [fuse]}", "proof: {}", "proof: {}"),
    _error("group-parts", "faults: [relay, socket]", "faults: [relay.coil-open, relay]", "faults:"),
    _warning("unnamed-fault", "names: [mud-packed, cut-out]", "names: [cut-out]", "verdicts:"),
    _warning(
        "unnamed-fault",
        "names: [switch.main-open, switch.main-series]",
        "names: [switch.main-open]",
        "verdicts:",
    ),
)
"""What the verdicts name, and how they are proved."""

AMOUNTS = (
    _error("bench-amount", "{value: 0.2 ohm}", "{value: 0.2 V}", "0.2 V"),
    _error("bench-amount", "adds: 0.2 ohm", "adds: 0.2 A", "0.2 A"),
    _error("bench-amount", "{light: lamp, below: 5 %}", "{light: lamp, below: 5 V}", "5 V"),
    _error("bench-amount", "lamp, below: 85 % of normal", "lamp, below: 1 V", "1 V"),
    _error("bench-amount", "lamp-out], from: 85 % of normal", "lamp-out], from: 10 A", "10 A"),
    _error("bench-amount", "lamp, below: 85 % of normal", "lamp, below: 85 % of usual", "85 % of"),
    _error("bench-amount", "isolation: 40 %", "isolation: 120 %", "120 %"),
    _error("bench-amount", "about: 15 %", "about: 150 %", "150 %"),
    _error("bench-amount", "emf: 12.3 V", "emf: -12.3 V", "-12.3 V"),
    _error("bench-amount", "elapsed: 2 s", "elapsed: 2 V", "2 V"),
    _error("bench-amount", "ohm: 10 ohm", "ohm: 0 ohm", "0 ohm"),
    _error("bench-amount", "from: -30 C", "from: 30 ohm", "30 ohm"),
    _error("bench-amount", "from: -30 C", "from: normal * 2 V", "normal * 2 V"),
    _error("bench-amount", "{housing: 110 C}", "{housing: 110 V}", "110 V"),
    _error("ideal-source", "internal: 40 mohm", "internal: 0 ohm", "0 ohm"),
    _warning("supply-order", "emf: 12.3 V", "emf: 14.9 V", "14.9 V"),
    _warning("supply-order", "internal: 40 mohm", "internal: 4 mohm", "4 mohm"),
)
"""Amounts and their quantities."""

SIGHTS = (
    _error("sight-fits", "gear, is: [reverse]}", "gear, is: [reverse], about: 5 %}", "5 %"),
    _error(
        "sight-fits", "from: -30 C, below: 150 C", "from: -30 C, below: 150 C, about: 5 %", "5 %"
    ),
    _error("sight-fits", "is: [chatters]}", "is: [chatters], may-miss: true}", "true}"),
    _error("sight-fits", "may-miss: true}", "may-miss: true, at: {key: run}}", "{key: run}"),
    _error("sight-fits", "[{reads: chime, is: [high]}]", "[{any: []}]", "[]}"),
    _error("sight-fits", "[{reads: chime, is: [high]}]", "[{not: []}]", "[]}"),
    _error("sight-fits", "[{reads: chime, is: [high]}]", "[{all: []}]", "[]}"),
    _error("sight-fits", "faulty: [fuse.open]", "faulty: []", "[]"),
    _error("sight-fits", "from: -30 C, below: 150 C", "from: 30 C, below: 15 C", "15 C"),
)
"""Keys of sights."""

BENCHES = (*BESIDE, *TESTS, *ACCESS, *PLACES, *NAMES, *VERDICTS, *AMOUNTS, *SIGHTS)
"""Every case."""
