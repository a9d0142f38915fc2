"""A bench and a judge made from the documents of a tree."""

from collections.abc import Iterable, Mapping

from faulttree.core.bench.bench import Bench
from faulttree.core.bench.document import BenchSheet
from faulttree.core.bench.looks import Supplied
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.expression_values import REFRIGERANT, Values, with_refrigerant
from faulttree.core.instruments import Instrument
from faulttree.core.proof.judged import Judge
from faulttree.core.tree import Tree
from faulttree.core.usual_instruments import one_per_class
from faulttree.core.vehicle import VehicleSheet


def set_up(
    tree: Tree,
    model: CircuitModel,
    sheet: BenchSheet,
    vehicle: VehicleSheet | None,
    instruments: Iterable[Instrument] = (),
    supplies: Mapping[str, Supplied] | None = None,
) -> tuple[Bench, Judge]:
    """A tree on the bench, and its bands.

    Args:
        tree, model, sheet, vehicle: documents that have been checked.
        instruments: instead of the usual ones of their class.
        supplies: other batteries than those of the sheet, by name.
    """
    bench = Bench(tree, Circuit.from_document(model), sheet, supplies)
    return bench, Judge(tree, values_of(tree, vehicle), one_per_class(instruments))


def values_of(tree: Tree, vehicle: VehicleSheet | None) -> Values:
    """The vehicle data that bands of a tree may go by [SI]."""
    if vehicle is None:
        return {}
    values = {
        name: vehicle.values[name].evaluator(need.quantity, {})({})
        for name, need in tree.needs.values.items()
        if name in vehicle.values
    }
    asks_for_it = REFRIGERANT in tree.needs.facts
    return with_refrigerant(values, vehicle.facts.get(REFRIGERANT) if asks_for_it else None)
