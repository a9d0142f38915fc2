"""`faulttree prove`: trees walked under every fault of their circuits."""

import argparse
import sys
from pathlib import Path

from faulttree.cli.exits import CANNOT_RUN, FINDINGS, FINE


def run(arguments: argparse.Namespace) -> int:
    """Prove every tree named; folders are searched."""
    from faulttree.core.proof.measures import holds_up, measures_of
    from faulttree.core.proof.set_up import set_up
    from faulttree.core.proof.tree_proof import prove
    from faulttree.core.circuit.amounts import si
    from faulttree.core.units import Quantity
    from faulttree.files.benches import open_bench
    from faulttree.render.proof_text import proof_text, walks_text
    code = FINE
    for name in arguments.trees:
        for path in sorted(Path(name).rglob("tree.yaml")) if Path(name).is_dir() else [Path(name)]:
            opened = open_bench(path)
            bench, judge = set_up(opened.tree.document, opened.circuit.document, opened.sheet.document, opened.vehicle.document if opened.vehicle else None)
            proof = prove(bench, judge)
            m = measures_of(proof)
            wanted = si(opened.sheet.document.isolation, Quantity.RATIO)
            if arguments.show:
                print(walks_text(proof, arguments.show))
            else:
                print(proof_text(proof, m, judge))
            if not holds_up(proof, m, wanted):
                code = FINDINGS
    return code
