"""Made-up supply networks of a car, for tests and for the benchmark.

Feeds branch from a battery; every piece of wire may be open, have resistance or be shorted. What
the tests show follows from that: the voltage at a node, the resistance of a piece, a leak to
ground, the drop between two nodes. Drawn at random are the shape, the minutes and the weights, and
which of the faults and tests there are.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import count
from random import Random

from faulttree.core.order import problem as given

Fault = tuple[int, str]
"""A piece of wire, by the node at its end, and what is wrong with it."""
_STRAIGHT = 0.7
"""How often a feed goes on instead of branching off."""


@dataclass(frozen=True)
class Network:
    """A tree of feeds: for each node the node it is fed from."""

    parents: tuple[int | None, ...]

    def up(self, node: int) -> list[int]:
        """The pieces between a node and the battery, its own first."""
        found, at = [], node
        while at is not None:
            found.append(at)
            at = self.parents[at]  # type: ignore[assignment]
        return found

    def fuse(self, node: int) -> int:
        """The piece behind whose fuse a node lies: a short there takes the whole feed down."""
        return self.up(node)[-2] if node else 0

    def volts(self, at: int) -> Callable[[Fault], str]:
        """Voltage at a node under load."""

        def shown(fault: Fault) -> str:
            node, kind = fault
            if kind == "short":
                return "none" if self.fuse(node) in self.up(at) else "full"
            if node not in self.up(at):
                return "full"
            return "none" if kind == "open" else "low"

        return shown

    def ohms(self, at: int) -> Callable[[Fault], str]:
        """Resistance of one piece."""
        return lambda fault: fault[1] if fault[0] == at and fault[1] != "short" else "good"

    def leak(self, at: int) -> Callable[[Fault], str]:
        """Leak to ground of a node and all it feeds."""
        return lambda fault: "leak" if fault[1] == "short" and at in self.up(fault[0]) else "none"

    def drop(self, upper: int, lower: int) -> Callable[[Fault], str]:
        """Voltage drop from a node to one that it feeds."""
        between = set(self.up(lower)) - set(self.up(upper))
        return lambda fault: fault[1] if fault[0] in between and fault[1] != "short" else "good"


def network_problem(
    faults: int, tests: int, seed: int, set_ups: int = 0, straight: float = _STRAIGHT
) -> given.Problem:
    """A network whose faults all read differently in some test.

    Args:
        faults, tests: how many.
        seed: which network.
        set_ups: how many connectors are unplugged for resistance and plugged for voltage.
        straight: how often a feed goes on instead of branching off.
    """
    rng = Random(faults * 1000 + seed)
    for more in count(2):
        chosen, candidates = _drawn(rng, faults // 2 + more, tests, straight)
        shown = {f: tuple(show(f) for _, _, show in candidates) for f in chosen}
        different = list({outcomes: f for f, outcomes in reversed(shown.items())}.values())
        if len(candidates) == tests and len(different) >= faults:
            return _problem(rng, sorted(rng.sample(different, faults)), candidates, set_ups)
    raise AssertionError


_Candidate = tuple[str, int, Callable[[Fault], str]]


def _drawn(
    rng: Random, nodes: int, tests: int, straight: float
) -> tuple[list[Fault], list[_Candidate]]:
    parents = (
        node - 1 if rng.random() < straight else rng.randrange(node) for node in range(1, nodes)
    )
    network = Network((None, *parents))
    faults = [(node, kind) for node in range(nodes) for kind in ("open", "resistance", "short")]
    candidates = [
        each for each in _candidates(rng, network) if len({each[2](fault) for fault in faults}) > 1
    ]
    rng.shuffle(candidates)
    return faults, candidates[:tests]


def _candidates(rng: Random, network: Network) -> Iterator[_Candidate]:
    for node in range(len(network.parents)):
        yield f"volts-{node}", rng.randint(1, 12), network.volts(node)
        yield f"ohms-{node}", rng.randint(3, 20), network.ohms(node)
        yield f"leak-{node}", rng.randint(2, 15), network.leak(node)
        above = network.up(node)[2:]
        if above:
            upper = rng.choice(above)
            yield f"drop-{upper}-{node}", rng.randint(2, 16), network.drop(upper, node)


def _problem(
    rng: Random, faults: list[Fault], candidates: list[_Candidate], set_ups: int
) -> given.Problem:
    rows = tuple(
        given.Suspect(f"{kind}-{node}", f"{kind}-{node}", rng.randint(1, 30))
        for node, kind in faults
    )
    plugs = tuple(
        given.SetUp(f"x{n}", {"plugged": rng.randint(1, 4), "off": rng.randint(2, 10)}, "plugged")
        for n in range(set_ups)
    )
    tests = []
    for number, (name, minutes, show) in enumerate(candidates):
        needs = {}
        if plugs:
            plug = plugs[number % len(plugs)]
            needs = {plug.name: "plugged" if name.startswith(("volts", "drop")) else "off"}
        shows = tuple((show(fault),) for fault in faults)
        tests.append(given.Test(name, minutes, shows, needs))
    return given.Problem(rows, tuple(tests), plugs)
