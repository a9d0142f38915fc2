"""`faulttree instruments`: what is used for each class, with accuracy and load."""

import argparse
import sys

from faulttree.cli.exits import FINE
from faulttree.core.instruments import Instrument
from faulttree.core.usual_instruments import one_per_class
from faulttree.files.documents import DocumentError
from faulttree.files.places import instrument_sheet
from faulttree.files.shop import own_instruments
from faulttree.render.troubles import why_not


def run(_arguments: argparse.Namespace) -> int:
    """List the instruments in use."""
    for instrument in one_per_class(own_or_usual()).values():
        print(_text(instrument))
    print(f"Describe your own in {instrument_sheet()}; docs/instruments.md shows how.")
    return FINE


def own_or_usual() -> tuple[Instrument, ...]:
    """The technician's own instruments; a sheet with mistakes is told and left out."""
    try:
        return own_instruments()
    except (DocumentError, OSError) as error:
        print(why_not(error), file=sys.stderr)
        print(f"{instrument_sheet()} is left out; the usual ones are used.", file=sys.stderr)
        return ()


def _text(instrument: Instrument) -> str:
    lines = [f"{instrument.class_}: {instrument.name}", f"    on the circuit: {instrument.load}"]
    lines += [
        f"    {quantity.words} to {each.up_to.text}: ±({each.accuracy.text}), "
        f"steps of {each.resolution.text}"
        for quantity, ranges in instrument.functions.items()
        for each in ranges
    ]
    return "\n".join(lines)
