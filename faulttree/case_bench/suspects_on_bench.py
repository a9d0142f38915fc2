"""The readings of a walk held against its circuit: what is suspect of this car."""

from dataclasses import dataclass

from faulttree.case_bench.battery import PostVolts, post_volts
from faulttree.case_bench.day import Day, day_of
from faulttree.case_bench.supply import this_car
from faulttree.core.bench.document import BenchSheet
from faulttree.core.bench.suspects import Suspect, chosen
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.expression_values import Values
from faulttree.core.suspects.along import Layout
from faulttree.core.suspects.by_part import by_part
from faulttree.core.suspects.evidence import Read, reads_of
from faulttree.core.suspects.on_bench import SuspectBench
from faulttree.core.suspects.suspected import Suspected
from faulttree.core.suspects.suspicion import Suspects
from faulttree.core.tree import Tree
from faulttree.core.walk.state import WalkState


@dataclass(frozen=True, slots=True)
class Known:
    """What suspects are worked out from; the same gives the same."""

    reads: tuple[Read, ...]
    battery: PostVolts
    day: Day
    values: Values


class SuspectsOnBench:
    """A case's circuit and bench sheet, and the car as it was last asked for."""

    _suspects: tuple[Values, Suspects] | None

    def __init__(self, tree: Tree, circuit: Circuit, sheet: BenchSheet) -> None:
        self._tree, self._circuit, self._sheet = tree, circuit, sheet
        self._bench_for(PostVolts(), ())
        suspects = tuple(self._bench.suspects)
        self._layout = Layout(circuit, sheet, suspects)
        self._verdicts = {
            name: _ids(chosen(suspects, verdict.names)) for name, verdict in sheet.verdicts.items()
        }

    def known(self, state: WalkState) -> Known:
        """What a walk tells of its car: the readings that stand, battery, day, vehicle data."""
        day = day_of(state, self._sheet, self._circuit.model)
        return Known(reads_of(state), post_volts(state), day, state.vehicle_data)

    def after(self, known: Known) -> Suspected:
        """What is suspect; a reading that was not held against this car yet takes a moment."""
        suspicion = self._suspects_for(known).after(known.reads, known.values)
        model = self._circuit.model
        return Suspected(
            suspicion,
            by_part(suspicion),
            self._layout.with_shares(suspicion),
            {name: node.words or name.replace("-", " ") for name, node in model.nodes.items()},
            {name: each.words_for(name) for name, each in model.elements.items()},
            self._verdicts,
        )

    def _suspects_for(self, known: Known) -> Suspects:
        """What was worked out is kept while battery and vehicle data stay as they are."""
        if self._found != (known.battery, known.day):
            self._bench_for(known.battery, known.day)
        if self._suspects is None or self._suspects[0] != known.values:
            self._suspects = known.values, Suspects(self._bench)
        return self._suspects[1]

    def _bench_for(self, battery: PostVolts, day: Day) -> None:
        """Put the car on the bench as it was found."""
        self._found = battery, day
        supply = this_car(battery, day, self._sheet, self._circuit.model)
        self._bench = SuspectBench(self._tree, self._circuit, self._sheet, supply)
        self._suspects = None


def _ids(suspects: tuple[Suspect, ...]) -> frozenset[str]:
    return frozenset(suspect.id for suspect in suspects)
