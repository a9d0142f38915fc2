"""`faulttree gauges`: what is expected on both gauges today, what was read, and the cycle."""

import argparse
import sys
from collections.abc import Iterator

from faulttree.cli.exits import CANNOT_RUN, FINE
from faulttree.cli.instruments import own_or_usual
from faulttree.cli.output import has_all_letters, print_json
from faulttree.core.air_conditioning.on_gauges import (
    AMBIENT,
    DISCHARGE,
    HIGH_SIDE,
    HUMIDITY,
    LIQUID,
    LOW_SIDE,
    PLACES,
    SUCTION,
    OnGauges,
    Read,
)
from faulttree.core.atmosphere import Atmosphere, NoSuchPlace
from faulttree.core.expression_car import refrigerant_of
from faulttree.core.expression_values import REFRIGERANT_WORD
from faulttree.core.instruments import Instrument, InstrumentClass, measured
from faulttree.core.reading import Entry, ReadingRefused, parse_reading
from faulttree.core.uncertain import CannotWorkOut
from faulttree.core.units import Quantity, UnitSystem, entry_unit
from faulttree.core.usual_instruments import one_per_class
from faulttree.files import places, settings
from faulttree.files.pictures import PictureExists, write_pictures
from faulttree.render.gauge_drawings import drawings
from faulttree.render.on_gauges import on_gauges_text
from faulttree.render.on_gauges_json import on_gauges_json
from faulttree.render.page import WIDTH
from faulttree.render.plain_text import safe_line
from faulttree.render.troubles import why_not

_OPTIONS = {
    AMBIENT: "ambient",
    HUMIDITY: "humidity",
    LOW_SIDE: "low",
    HIGH_SIDE: "high",
    SUCTION: "suction",
    LIQUID: "liquid",
    DISCHARGE: "discharge",
}
"""What each reading is given by."""
_READ_ON = {
    Quantity.GAUGE_PRESSURE: InstrumentClass.GAUGES,
    Quantity.TEMPERATURE: InstrumentClass.THERMOMETER,
}
_NO_REFRIGERANT = (
    "Say which refrigerant it is, by label and identifier: --refrigerant R-134a, R-12, R-1234yf or "
    "R-22."
)


class _Refused(Exception):
    """What was asked for makes no sense; the message says why."""


def run(arguments: argparse.Namespace) -> int:
    """Show gauges and cycle."""
    chosen = arguments.units or settings.load(places.settings_folder()).units
    units = UnitSystem(chosen)
    try:
        on = _on_gauges(arguments, units)
        if arguments.pictures:
            drawn = drawings(on, units)
            written = write_pictures(arguments.pictures, "", drawn, may_replace=False)
            print(f"Written: {', '.join(map(str, written.values()))}", file=sys.stderr)
    except (_Refused, PictureExists, OSError) as error:
        print(safe_line(why_not(error)), file=sys.stderr)
        return CANNOT_RUN
    if arguments.json:
        print_json(on_gauges_json(on))
    else:
        sys.stdout.write(on_gauges_text(on, units, WIDTH, not has_all_letters()))
    return FINE


def _on_gauges(arguments: argparse.Namespace, units: UnitSystem) -> OnGauges:
    """The readings as they were given.

    Raises:
        _Refused: one of them cannot be.
    """
    if not arguments.refrigerant:
        raise _Refused(_NO_REFRIGERANT)
    try:
        refrigerant = refrigerant_of({REFRIGERANT_WORD: arguments.refrigerant})
    except CannotWorkOut as error:
        raise _Refused(f"--refrigerant: {error}.") from None
    altitude = _altitude(arguments.altitude, units)
    on = OnGauges(refrigerant, altitude, dict(_reads(arguments, units)))
    for name in (LOW_SIDE, HIGH_SIDE):
        read = on.value(name)
        if read is not None and on.atmosphere.absolute(read.value) <= 0:
            option = _OPTIONS[name]
            raise _Refused(f"--{option}: no vacuum is as deep as that; check number and unit.")
    return on


def _reads(arguments: argparse.Namespace, units: UnitSystem) -> Iterator[tuple[str, Read]]:
    instruments = one_per_class(own_or_usual())
    for name, option in _OPTIONS.items():
        typed = getattr(arguments, option)
        if typed is None:
            continue
        entry = _entry(typed, option, PLACES[name], units)
        if name == HUMIDITY and not 0 <= entry.value <= 1:
            raise _Refused("--humidity: relative humidity lies between 0 and 100 %.")
        on = _instrument(entry, instruments)
        yield name, Read(measured(entry, on, name), entry.step)


def _instrument(entry: Entry, instruments: dict[InstrumentClass, Instrument]) -> Instrument | None:
    """What a reading is taken to be read on."""
    kind = _READ_ON.get(entry.quantity)
    return None if kind is None else instruments.get(kind)


def _entry(typed: str, option: str, quantity: Quantity, units: UnitSystem) -> Entry:
    try:
        return parse_reading(typed, quantity, units)
    except ReadingRefused as error:
        raise _Refused(f"--{option}: {error}") from None


def _altitude(typed: str | None, units: UnitSystem) -> float | None:
    """Of the place [m]; other lengths than altitudes are bare numbers here, so it has its unit."""
    if typed is None:
        return None
    entry = _entry(typed, "altitude", Quantity.LENGTH, units)
    if entry.unit == entry_unit(Quantity.LENGTH, units).symbol:
        raise _Refused("--altitude: type it with its unit, as 350m or 1200ft.")
    try:
        Atmosphere.at_altitude(entry.value)
    except NoSuchPlace as error:
        raise _Refused(f"--altitude: that is no place for a car: {error}.") from None
    return entry.value
