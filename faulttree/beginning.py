"""What a new case begins with, and the event that begins it."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from faulttree import __version__
from faulttree.core.instruments import Instrument
from faulttree.core.tree import Tree
from faulttree.core.units import UnitSystem
from faulttree.core.vehicle import VehicleSheet
from faulttree.core.walk.events import Intake, Started
from faulttree.files.documents import Loaded


@dataclass(frozen=True, slots=True)
class Beginning:
    """What a new case begins with."""

    tree: Loaded[Tree]
    vehicle: Loaded[VehicleSheet] | None = None
    intake: Intake = field(default_factory=Intake)
    units: UnitSystem = UnitSystem.METRIC
    instruments: tuple[Instrument, ...] = ()
    circuit: Mapping[str, bytes] = field(default_factory=dict)
    """What the case keeps of the tree's circuit, by file: see `opening.Opened`."""

    def started(self, now: str) -> Started:
        """The first event of the case.

        Args:
            now: the time, as it is recorded.
        """
        tree, vehicle = self.tree, self.vehicle
        return Started(
            seq=1,
            at=now,
            tree_id=tree.document.id,
            tree_version=tree.document.version,
            tree_hash=tree.hash,
            vehicle_id=vehicle.document.id if vehicle else None,
            vehicle_hash=vehicle.hash if vehicle else None,
            vehicle_name=vehicle.document.name if vehicle else "",
            intake=self.intake,
            units=self.units,
            instruments=self.instruments,
            program=__version__,
        )
