"""How long a proof takes: a tree of thirty faults, and a library of thirty trees."""

import gc
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import Any

from faulttree import start

from .rows import Row

TREES = Path(__file__).parents[2] / "trees"
FAULTS = 30
"""Faults of the tree that is timed: those of the largest shipped model, thinned out evenly."""
LIBRARY = 30
"""Trees of a library; the time of the shipped ones is taken for so many."""


def rows(rounds: int) -> list[Row]:
    """The proof from checked documents to its figures, as `faulttree prove` does it."""
    collects = gc.get_threshold()
    start.begin()
    try:
        return _rows(rounds)
    finally:
        gc.set_threshold(*collects)


def _rows(rounds: int) -> list[Row]:
    shipped = {folder.name: _documents(folder) for folder in sorted(TREES.iterdir())}
    largest = max(shipped.values(), key=lambda found: len(_faults(found)))
    thinned = _thinned(largest)
    few = max(3, min(rounds, 7))
    one = median(_timed(thinned) for _ in range(few))
    every = sum(_timed(found) for found in shipped.values())
    return [
        Row(
            f"proof of a tree of {FAULTS} faults, 3 supplies, 3 severities, exact intervals",
            "",
            round(one, 2),
            1.0,
            unit="s",
            detail=f"{_cars(thinned)} cars",
        ),
        Row(
            f"proof of a library of {LIBRARY} trees like the shipped ones",
            "",
            round(every / len(shipped) * LIBRARY, 1),
            60.0,
            unit="s",
            detail=f"{every:.1f} s for {len(shipped)}",
        ),
    ]


def _documents(folder: Path) -> Any:
    from faulttree.files.benches import open_bench

    return open_bench(folder / "tree.yaml")


def _set_up(found: Any) -> Any:
    from faulttree.core.proof.set_up import set_up

    vehicle = found.vehicle.document if found.vehicle else None
    return set_up(found.tree.document, found.circuit.document, found.sheet.document, vehicle)


def _timed(found: Any) -> float:
    from faulttree.core.proof.measures import measures_of
    from faulttree.core.proof.tree_proof import prove

    begun = perf_counter()
    proof = prove(*_set_up(found))
    assert measures_of(proof).faults
    return perf_counter() - begun


def _cars(found: Any) -> int:
    return len(_set_up(found)[0].rows)


def _faults(found: Any) -> list[str]:
    from faulttree.core.circuit.faults import faults_of

    return [fault.id for fault in faults_of(found.circuit.document)]


def _thinned(found: Any) -> Any:
    """The same with thirty of its faults; the others have no weight, situations are left out."""
    from dataclasses import replace

    from faulttree.core.circuit.elements import FaultEntry

    names = _faults(found)
    kept = {names[i * len(names) // FAULTS] for i in range(FAULTS)}
    model = found.circuit.document
    elements = {}
    for name, element in model.elements.items():
        gone = [n.partition(".")[2] for n in names if n.startswith(f"{name}.") and n not in kept]
        faults = {key: FaultEntry(weight=0.0) for key in gone}
        elements[name] = element.model_copy(update={"faults": {**element.faults, **faults}})
    circuit = model.model_copy(update={"elements": elements})
    sheet = found.sheet.document.model_copy(update={"situations": {}})
    return replace(
        found,
        circuit=replace(found.circuit, document=circuit),
        sheet=replace(found.sheet, document=sheet),
    )
