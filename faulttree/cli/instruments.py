"""`faulttree instruments`: what is used for each class, with accuracy and load."""

import argparse

from faulttree.cli.exits import FINE
from faulttree.cli.opening import own_instruments
from faulttree.core.instruments import Instrument, one_per_class
from faulttree.files.places import instrument_sheet


def run(_arguments: argparse.Namespace) -> int:
    """List the instruments in use."""
    for instrument in one_per_class(own_instruments()).values():
        print(_text(instrument))
    print(f"Describe your own in {instrument_sheet()}; docs/instruments.md shows how.")
    return FINE


def _text(instrument: Instrument) -> str:
    lines = [f"{instrument.class_}: {instrument.name}", f"    on the circuit: {instrument.load}"]
    for quantity, ranges in instrument.functions.items():
        for each in ranges:
            lines.append(
                f"    {quantity.words} to {each.up_to.text}: ±({each.accuracy.text}), "
                f"steps of {each.resolution.text}"
            )
    return "\n".join(lines)
