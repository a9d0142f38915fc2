"""The instruments of this shop: the usual ones and those the technician described."""

from faulttree.core.instruments import Instrument
from faulttree.core.usual_instruments import built_in
from faulttree.files.documents import DocumentError, load_instruments
from faulttree.files.places import instrument_sheet


def own_instruments() -> tuple[Instrument, ...]:
    """The technician's own instruments; none when there is no sheet.

    Raises:
        DocumentError: the sheet has mistakes.
        OSError: it cannot be read.
    """
    path = instrument_sheet()
    return load_instruments(path).document.instruments if path.exists() else ()


def shop_instruments() -> tuple[Instrument, ...]:
    """All instruments to choose from; a sheet with mistakes leaves the usual ones."""
    try:
        own = own_instruments()
    except (DocumentError, OSError):
        own = ()
    return (*own, *built_in())
