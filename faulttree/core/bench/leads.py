"""Where the leads of a tree's test go on the circuit."""

from collections.abc import Mapping
from dataclasses import dataclass

from faulttree.core.bench.document import BenchSheet
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.texts import placeholders


@dataclass(frozen=True, slots=True)
class Spot:
    """A node, or one node for each position of a switch.

    Attributes:
        node: the node; empty where it depends on an input.
        by: the input it depends on.
        nodes: state of that input to node.
    """

    node: str = ""
    by: str = ""
    nodes: Mapping[str, str] | None = None

    def at(self, inputs: Mapping[str, str | float]) -> str | None:
        """The node with the inputs in a state; None where there is none."""
        if self.nodes is None:
            return self.node
        return self.nodes.get(str(inputs.get(self.by, "")))


class Spots:
    """The nodes of a tree's points and other lead texts."""

    def __init__(self, sheet: BenchSheet, model: CircuitModel) -> None:
        self._leads = {plain(text): node for text, node in sheet.leads.items()}
        self._points: dict[str, Spot] = {
            node.point: Spot(name) for name, node in model.nodes.items() if node.point
        }
        for point, where in sheet.points.items():
            self._points[point] = spot_of(where)

    def find(self, lead: str | None) -> Spot | None:
        """The node of a lead as the tree names it; None where the circuit has no such place.

        A text that names one point and something more, such as “one probe on {relay-86}”, is the
        place of that point.
        """
        if not lead:
            return None
        known = self._leads.get(plain(lead))
        if known:
            return Spot(known)
        points = placeholders(lead)
        return self._points.get(points[0]) if len(points) == 1 else None


def spot_of(where: str | Mapping[str, str]) -> Spot:
    """What a sheet writes under a point: a node, or `by` with the node of each state."""
    if isinstance(where, str):
        return Spot(where)
    nodes = {state: node for state, node in where.items() if state != "by"}
    return Spot(by=where.get("by", ""), nodes=nodes)


def plain(text: str) -> str:
    """Lead texts that differ in spaces and capitals alone are the same."""
    return " ".join(text.split()).casefold()
