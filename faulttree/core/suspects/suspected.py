"""All that is suspect after some readings of a car: by fault, by part, and along the circuit."""

from collections.abc import Mapping
from dataclasses import dataclass

from faulttree.core.suspects.along import Along
from faulttree.core.suspects.by_part import Part
from faulttree.core.suspects.ranking import Suspicion

CIRCUIT_MODEL, TABLE = "circuit model", "table of likelihoods"
"""What odds are worked out from."""


@dataclass(frozen=True, slots=True)
class Suspected:
    """What is suspect after the readings of a walk.

    Attributes:
        suspicion: every suspect.
        parts: the same by part, the likeliest first.
        along: the same along the circuit.
        nodes: node to its name for people.
        elements: element to its name for people.
        verdicts: ids of the suspects that a conclusion of the tree is right for, by conclusion.
        source: what the odds are worked out from: one of the above.
    """

    suspicion: Suspicion
    parts: tuple[Part, ...]
    along: Along
    nodes: Mapping[str, str]
    elements: Mapping[str, str]
    verdicts: Mapping[str, frozenset[str]]
    source: str = CIRCUIT_MODEL
