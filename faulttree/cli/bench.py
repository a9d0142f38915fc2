"""What commands on circuits have in common: a tree put on the bench with one's own instruments."""

from collections.abc import Mapping, Sequence

from faulttree.cli.output import has_all_letters
from faulttree.core.bench.bench import Bench
from faulttree.core.bench.looks import Supplied
from faulttree.core.instruments import Instrument
from faulttree.core.proof.judged import Judge
from faulttree.core.proof.set_up import set_up
from faulttree.core.usual_instruments import one_per_class
from faulttree.files import places, settings
from faulttree.files.benches import NoBenchError, OnBench
from faulttree.files.documents import DocumentError
from faulttree.files.library import NoSuchTreeError
from faulttree.files.opening import SeveralSheetsError
from faulttree.render.proof_words import Words

TROUBLES = (DocumentError, NoBenchError, NoSuchTreeError, SeveralSheetsError, OSError)
"""Why a tree cannot be put on the bench; each says so in words."""


def put_on_bench(
    opened: OnBench, own: Sequence[Instrument], supplies: Mapping[str, Supplied] | None = None
) -> tuple[Bench, Judge]:
    """The bench of a tree, and the judge of its bands.

    Args:
        opened: the tree's documents.
        own: the technician's own instruments, in place of the usual ones.
        supplies: other batteries than those of the bench sheet.
    """
    vehicle = opened.vehicle.document if opened.vehicle else None
    return set_up(
        opened.tree.document,
        opened.circuit.document,
        opened.sheet.document,
        vehicle,
        own,
        supplies,
    )


def words_for(opened: OnBench, own: Sequence[Instrument]) -> Words:
    """How the things of a tree are written here: units chosen, letters that stdout has."""
    told: dict[str, str] = {}
    if opened.vehicle:
        sheet = opened.vehicle.document
        told |= {name: point.short for name, point in sheet.points.items()}
        told |= {name: value.text for name, value in sheet.values.items()} | sheet.facts
    units = settings.load(places.settings_folder()).units
    return Words(opened.tree.document, one_per_class(own), units, not has_all_letters(), told)
