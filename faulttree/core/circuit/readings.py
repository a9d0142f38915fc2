"""What instruments show: each is solved as a part of the circuit, from the state it is put into."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from faulttree.core.circuit.attached import Flag, Flags, read_pairs
from faulttree.core.circuit.batch import Floats
from faulttree.core.circuit.cases import Cases
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.circuit.laws import LIGHT_EXPONENT
from faulttree.core.circuit.probes import LAMP_RATED_V, Probe
from faulttree.core.circuit.solve import Solved, solve

__all__ = ["Flag", "Readings", "read"]

_WORDS = {
    Flag.UNSTABLE: "unstable: a relay chatters, no steady reading",
    Flag.METER_FUSE: "more than the meter can carry: its fuse goes",
    Flag.OVER_RANGE: "OL: no path that the meter can see",
    Flag.FLOATING: "floating: no path but the instrument; a high-impedance meter may show a ghost "
    "voltage",
    Flag.FUSE_BLOWN: "a fuse of the car has blown",
}


@dataclass(frozen=True, slots=True, eq=False)
class Readings:
    """Readings of every probe in every case.

    Attributes:
        probes: what was read, in the order of the columns.
        values: shape (n_cases, n_probes): volts across a meter, a lamp or an LED [V]; amperes of
            ammeter and clamp [A]; ohms [ohm], infinite for OL. Not a number where none exists.
        flags: shape (n_cases, n_probes); sums of Flag.
    """

    probes: tuple[Probe, ...]
    values: Floats
    flags: Flags

    def words(self, case: int, probe: int) -> str:
        """What must be said of a reading beside its number, in one line; empty for nothing."""
        here = int(self.flags[case, probe])
        return "; ".join(words for flag, words in _WORDS.items() if here & flag)

    def light(self) -> Floats:
        """Light of test lamps as a share of full, shape (n_cases, n_probes); others are NaN."""
        lamps = np.array([p.tool.is_lamp for p in self.probes])
        share = (np.abs(self.values) / LAMP_RATED_V) ** LIGHT_EXPONENT
        return np.where(lamps, share, np.nan)


def read(
    circuit: Circuit, cases: Cases, probes: Sequence[Probe], solved: Solved | None = None
) -> Readings:
    """What every probe shows in every case.

    Args:
        circuit: the circuit.
        cases: states and faults.
        probes: the readings to take, each by itself.
        solved: `solve(circuit, cases)`, where it is at hand already.

    Raises:
        KeyError: a case or a probe names something the circuit does not have.
    """
    n_cases, n_probes = len(cases), len(probes)
    case, probe = np.divmod(np.arange(n_cases * n_probes), n_probes or 1)
    found = read_pairs(circuit, solved or solve(circuit, cases), probes, case, probe)
    is_unstable = (found.flags & Flag.UNSTABLE) != 0
    values = np.where(is_unstable, np.nan, found.low)
    shape = n_cases, n_probes
    return Readings(tuple(probes), values.reshape(shape), found.flags.reshape(shape))
