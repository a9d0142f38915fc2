"""A proof as text in 80 columns: verdict, figures, where the faults end, what to mend."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from faulttree.core.circuit.amounts import si
from faulttree.core.proof.apart import Split
from faulttree.core.proof.measures import Measures
from faulttree.core.proof.tree_proof import TreeProof
from faulttree.core.units import Quantity
from faulttree.render.page import wrapped
from faulttree.render.proof_advice import advice_lines
from faulttree.render.proof_edges import edge_lines
from faulttree.render.proof_ends import FaultEnds, ends_of, landings
from faulttree.render.proof_faults import fault_lines
from faulttree.render.proof_figures import figure_lines, reasons, verdict_lines
from faulttree.render.proof_landings import landing_lines
from faulttree.render.proof_words import Words
