"""The usual instruments of a shop, built in for whoever has not described their own.

A figure stands here once, in the shape of a technician's own document.
"""

from collections.abc import Iterable
from functools import cache
from typing import Any

from faulttree.core.instruments import Instrument, InstrumentClass


@cache
def built_in() -> tuple[Instrument, ...]:
    """One usual instrument of each class, with the figures makers commonly state.

    Source: common practice; the meter, clamp and test-light figures are typical of makers' guides.
    """
    return tuple(Instrument.model_validate(each) for each in _BUILT_IN)


def one_per_class(instruments: Iterable[Instrument]) -> dict[InstrumentClass, Instrument]:
    """The instrument to use for each class: the last one named wins over the built-in one."""
    return {i.class_: i for i in (*built_in(), *instruments)}


def _range(up_to: str, resolution: str, accuracy: str) -> dict[str, str]:
    return {"up-to": up_to, "resolution": resolution, "accuracy": accuracy}


_METER_VOLTS = [
    _range("600 mV", "0.1 mV", "0.5 % + 2 digits"),
    _range("6 V", "0.001 V", "0.5 % + 2 digits"),
    _range("60 V", "0.01 V", "0.5 % + 2 digits"),
    _range("600 V", "0.1 V", "0.5 % + 2 digits"),
]
_METER_OHMS = [
    _range("600 ohm", "0.1 ohm", "1 % + 3 digits"),
    _range("6 kohm", "0.001 kohm", "1 % + 2 digits"),
    _range("60 kohm", "0.01 kohm", "1 % + 2 digits"),
    _range("600 kohm", "0.1 kohm", "1 % + 2 digits"),
    _range("6 Mohm", "0.001 Mohm", "1 % + 2 digits"),
    _range("40 Mohm", "0.01 Mohm", "2 % + 5 digits"),
]
_BUILT_IN: tuple[dict[str, Any], ...] = (
    {
        "id": "usual-meter",
        "name": "Usual digital meter, 6000 counts",
        "class": "meter",
        "load": "10 Mohm on volts; a few hundredths of an ohm in series on amperes",
        "functions": {
            "voltage": _METER_VOLTS,
            "resistance": _METER_OHMS,
            "current": [_range("10 A", "0.01 A", "1.5 % + 3 digits")],
        },
    },
    {
        "id": "usual-low-impedance-meter",
        "name": "Usual meter, low-impedance volts",
        "class": "low-impedance-meter",
        "load": "2 to 3 kohm; never on sensor or control-unit lines",
        "functions": {
            "voltage": [
                _range("60 V", "0.01 V", "2 % + 3 digits"),
                _range("600 V", "0.1 V", "2 % + 3 digits"),
            ]
        },
    },
    {
        "id": "usual-clamp",
        "name": "Usual current clamp",
        "class": "clamp",
        "load": "none; zero it on the spot, round one wire only",
        "functions": {
            "current": [
                _range("60 A", "0.01 A", "2.5 % + 10 digits"),
                _range("600 A", "0.1 A", "2.5 % + 10 digits"),
            ]
        },
    },
    {
        "id": "usual-test-light",
        "name": "Filament test light",
        "class": "test-light",
        "load": "about 0.25 A: 50 ohm hot, 5 to 8 ohm cold; never on control-unit lines",
    },
    {
        "id": "usual-led-probe",
        "name": "LED probe",
        "class": "led-probe",
        "load": "5 to 20 mA; glows on leakage",
    },
    {
        "id": "usual-load-lamp",
        "name": "21 W lamp with leads",
        "class": "load-lamp",
        "load": "about 1.7 A lit, eight to ten times that when switched on",
    },
    {
        "id": "usual-gauges",
        "name": "Usual pressure gauges",
        "class": "gauges",
        "load": "a little refrigerant in the hoses",
        "functions": {
            "gauge-pressure": [
                _range("120 psi", "1 psi", "2 % of full scale"),
                _range("500 psi", "5 psi", "2 % of full scale"),
            ]
        },
    },
    {
        "id": "usual-thermometer",
        "name": "Usual contact thermometer",
        "class": "thermometer",
        "load": "reads low unless pressed on and covered",
        "functions": {"temperature": [_range("200 C", "0.1 C", "2 K")]},
    },
    {
        "id": "usual-hygrometer",
        "name": "Usual hygrometer",
        "class": "hygrometer",
        "load": "slow: give it ten minutes in the shade",
        "functions": {"ratio": [_range("100 %", "1 %", "4 % of full scale")]},
    },
    {
        "id": "usual-scale",
        "name": "Usual charging scale",
        "class": "scale",
        "load": "hoses drag on it",
        "functions": {"mass": [_range("100 kg", "5 g", "10 g")]},
    },
    {
        "id": "usual-feeler-gauge",
        "name": "Usual feeler gauges",
        "class": "feeler-gauge",
        "load": "none",
        "functions": {"length": [_range("5 mm", "0.05 mm", "1 digits")]},
    },
    {
        "id": "usual-stopwatch",
        "name": "Usual stopwatch or watch",
        "class": "stopwatch",
        "load": "none; a hand is half a second late",
        "functions": {"time": [_range("36000 s", "0.1 s", "0.5 s")]},
    },
    {
        "id": "usual-refrigerant-identifier",
        "name": "Refrigerant identifier",
        "class": "refrigerant-identifier",
        "load": "a few grams of refrigerant",
    },
)
