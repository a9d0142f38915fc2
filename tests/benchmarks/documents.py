"""Made-up documents of any size: a tree that is one long chain of tests, and a case walked in it.

The steps are mixed and worded about as in the trees that come with the program: three readings,
one look and one sum in every five steps, and a verdict for every three of them.
"""

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from faulttree.beginning import Beginning
from faulttree.core.walk.asks import Ask, AskKind
from faulttree.core.walk.respond import Recorded
from faulttree.files.documents import tree_from_bytes
from faulttree.session import Session

TREE_ID = "long-loom"

_HEAD = """\
format: tree/1
id: long-loom
version: "1.0.0"
changes:
  - {version: "1.0.0", date: "2026-11-25", text: First issue.}
title: A lamp at the end of a long loom stays dark
system: lighting
complaint:
  - The lamp at the very back does not light.
  - It lights on dry days only.
applies-to: >
  An invented car with a lamp fed through a great many joints, one behind the other.
instruments: [meter]
cautions: [licence]
confirm:
  how: Key to run, switch the lamp on and look at it. It lights white and steady.
  provoke:
    - Move the loom at every bend, one after the other.
sources:
  shop-notes: Shop notes of the invented Harrow Lane garage, 2026
start: test-0
steps:
"""

_TEST = """
  {id}:
    kind: {kind}
    title: {title}
    why: >
      The joint before this one was sound. This one halves what is left of the loom, or ends the
      search when the feed is lost here.
"""

_PLACE = """\
    minutes: 2
    red-lead: joint {n} of the loom, probed from the wire side
    black-lead: battery negative post
    set-up: {{key: run, engine: stopped, load: lamp switched on, complaint: any}}
    how: Push the probe in beside the seal, do not spread the terminal, and wait for a steady value.
"""

_BANDS = """\
    quantity: voltage
    source: shop-notes
    plausible: {{from: -1 V, below: 17 V}}
    bands:
      - name: no feed
        is: fault
        below: 1 V
        means: Nothing arrives here. The wire or the joint before this one is open.
        go: {verdict}
      - name: weak feed
        is: fault
        below: {edge}
        means: Part of the voltage is lost on the way. Look for a joint that gets warm.
        go: {verdict}
      - name: full feed
        is: good
        means: The loom is sound as far as this joint.
        go: {next}
    cannot: {{go: {next}, advice: Go on to the next joint and come back to this one later.}}
"""

_AGAIN = """\
    implausible: {advice: "Check the range, the black lead and the meter's battery.", go: again}
"""

_OUTCOMES = """\
    with: meter
    outcomes:
      - name: dry and bright
        is: good
        means: The joint looks sound. A reading behind it says whether it is.
        go: {next}
      - name: green or wet
        is: fault
        means: Water got in. The joint may carry a meter's current and no lamp's.
        go: {verdict}
    cannot: {{go: {next}}}
"""

_SUM = """\
    quantity: voltage
    value: {first} - {second}
    source: "calculated: what is lost between the two joints"
    plausible: {{from: -17 V, below: 17 V}}
    bands:
      - name: no loss
        is: good
        below: 0.5 V
        means: The wire between the two joints is sound.
        go: {next}
      - name: loss
        is: fault
        means: More is lost between the two joints than a sound wire takes.
        go: {verdict}
    cannot: {{go: {next}}}
    implausible: {{advice: Read both joints again., go: {next}}}
"""

_VERDICT = """
  {id}:
    kind: conclude
    title: The loom is open or poor near joint {n}
    result: fault
    finding: >
      The feed is lost near joint {n} of the loom. Everything before it carries the full voltage.
    part: joint {n} of the loom
    evidence: [{evidence}]
    cause: Water runs along the loom into this joint; look where it gets in and stop it there.
    prove:
      how: Bridge the joint with a fused lead and switch the lamp on.
      holds: The lamp lights with the lead in place and goes out without it.
      undo: Take the lead away.
      fails: {{go: {last}}}
    repairs:
      - name: New joint
        part-made: "no"
        gives: A joint as good as the wire on both sides of it.
        costs: Half an hour, a crimp sleeve and shrink tube.
        limits: None when the copper is bright; cut back until it is.
    verify:
      how: The same switch, the same load, the loom moved at every bend.
      cycles: 10
"""

_LAST = """
  {id}:
    kind: conclude
    title: The loom is sound
    result: unresolved
    finding: Every joint carries the full voltage while it is measured.
    next: Measure again while the complaint shows itself, on a wet day.
"""


def tree_bytes(steps: int) -> bytes:
    """A tree with this many steps: tests in one chain, a verdict for every three, a last one."""
    tests = (steps - 1) * 3 // 4
    verdicts = steps - 1 - tests
    last = _LAST.format(id="sound")
    return "".join((_HEAD, *_tests(tests, verdicts), *_verdicts(tests, verdicts), last)).encode()


def chain_bytes(tests: int) -> bytes:
    """A tree with this many tests in one chain, and the verdicts that go with them."""
    return tree_bytes(tests + -(-tests // 3) + 1)


def _tests(tests: int, verdicts: int) -> Iterator[str]:
    for n in range(tests):
        following = f"test-{n + 1}" if n + 1 < tests else "sound"
        verdict = f"verdict-{min(n // 3, verdicts - 1)}"
        yield _test(n, following, verdict)


def _test(n: int, following: str, verdict: str) -> str:
    kind, title = _kind(n)
    head = _TEST.format(id=f"test-{n}", kind=kind, title=title)
    ways = {"next": following, "verdict": verdict}
    if kind == "observe":
        return head + _PLACE.format(n=n) + _OUTCOMES.format(**ways) + _AGAIN
    if kind == "work-out":
        return head + _SUM.format(first=f"test-{n - 3}", second=f"test-{n - 1}", **ways)
    edge = "battery-voltage - 0.5 V" if n % 5 == 3 else f"{9.5 + n % 40 * 0.05:.2f} V"
    given = "    as: battery-voltage\n" if n == 0 else ""
    bands = _BANDS.format(edge=edge, **ways)
    return head + "    with: meter\n" + given + _PLACE.format(n=n) + bands + _AGAIN


def _kind(n: int) -> tuple[str, str]:
    if n % 5 == 2:
        return "observe", f"Look into joint {n}"
    if n % 5 == 4:
        return "work-out", f"Loss between joints {n - 3} and {n - 1}"
    return "measure", f"Voltage at joint {n}"


def _verdicts(tests: int, verdicts: int) -> Iterator[str]:
    for n in range(verdicts):
        first = min(n * 3, tests - 1)
        yield _VERDICT.format(id=f"verdict-{n}", n=first, evidence=f"test-{first}", last="sound")


def case(cases: Path, data: bytes, answers: int) -> str:
    """The id of a new case in which this many steps of a chain were answered, all of them well.

    Args:
        cases: the folder of all cases.
        data: a tree made by `tree_bytes`.
        answers: how many steps; a multiple of five stops before a reading.
    """
    tree = tree_from_bytes(data, TREE_ID)
    clock = datetime.now(UTC)
    session = Session.begin(cases, Beginning(tree), lambda: clock)
    while len(session.position.path) < answers:
        outcome = session.answer(_good_answer(session.ask))
        if not isinstance(outcome, Recorded):
            raise RuntimeError(f"the chain cannot be walked: {session.ask} {outcome}")
    return session.id


def _good_answer(ask: Ask) -> str:
    return "12.34" if ask.kind is AskKind.READING else "1"
