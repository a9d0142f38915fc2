"""What the small air-conditioning trees of the tests share."""

_HEAD = """
format: tree/1
id: ID
version: "1.0.0"
changes:
  - {version: "1.0.0", date: "2026-11-25", text: First issue.}
title: TITLE
system: air conditioning
complaint: [It cools a little and no more.]
applies-to: Any car with a thermostatic expansion valve.
instruments: [gauges, thermometer]
confirm: {how: Feel the vent., provoke: [Let it run with the blower on high.]}
needs:
  values:
    altitude: {quantity: length, ask: Altitude of the place}
"""
SHEET = """
format: vehicle/1
id: velmora-tarn-1991
version: "1.0.0"
make: Velmora
model: Tarn 1.8 GL
years: "1990-1993"
"""
"""A vehicle sheet that says nothing of refrigerant and altitude."""


def head(name: str, title: str) -> str:
    """A tree up to the altitude that it needs; more needs may follow."""
    return _HEAD.replace("ID", name).replace("TITLE", title)


def replaced(text: str, *changes: tuple[str, str]) -> str:
    """The text with pieces replaced; each must be there once."""
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} is there {text.count(old)} times"
        text = text.replace(old, new)
    return text
