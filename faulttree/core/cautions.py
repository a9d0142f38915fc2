"""The usual cautions of the trade, by id, each with where it comes from.

They are shown before the step they belong to. Local codes and licensed practice come first.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution: its text and its source."""

    text: str
    source: str


_COMMON = "common practice"

CAUTIONS: dict[str, Caution] = {
    "refrigerant-contact": Caution(
        "Liquid refrigerant freezes skin and eyes: goggles and gloves. Keep it from flames and "
        "hot surfaces; what it turns into there is poisonous.",
        "US Army TM 9-4120-381-14",
    ),
    "refrigerant-law": Caution(
        "Refrigerant work for pay needs a certified person and approved equipment. Recover it, "
        "never vent it. Local law comes first.",
        "US EPA, motor vehicle air conditioning rules, 40 CFR 82 subpart B",
    ),
    "refrigerant-air": Caution(
        "No compressed air for pressure tests: refrigerant under pressure with air can burn.",
        "US Army TB 9-2320-360-13&P-1",
    ),
    "refrigerant-mix": Caution(
        "Identify the refrigerant before connecting anything; never mix refrigerants, oils or "
        "hoses.",
        "US Army TM 9-2320-280-34",
    ),
    "pressure-parts": Caution(
        "Never weld, solder or steam-clean a part of a charged system.",
        "US Army TM 5-3805-290-23-1",
    ),
    "moving-parts": Caution(
        "Belts, fans and linkages start without notice: keep hands, hair, sleeves and leads clear.",
        "US Army TM 9-4110-255-14",
    ),
    "hot-surfaces": Caution(
        "Exhaust, resistor pack, lamps and discharge line burn. Never open a hot cooling system.",
        _COMMON,
    ),
    "restraint": Caution(
        "Near a supplemental restraint: stop, follow the vehicle's own disabling procedure and "
        "waiting time, and never measure or power its connectors.",
        _COMMON,
    ),
    "battery-acid": Caution(
        "Eye protection at the battery: its gas explodes and its acid burns. Charger off before "
        "clips move; the last clip goes on away from the battery.",
        "29 CFR 1926.441, 1910.178, 1917.157 (OSHA)",
    ),
    "battery-order": Caution("Negative clamp off first and on last.", "US Army TM 10-3930-671-24"),
    "ignition-hv": Caution(
        "Ignition high voltage injures: use a grounded gap tester, no hands, and nobody with a "
        "pacemaker nearby.",
        _COMMON,
    ),
    "fuel": Caution(
        "Fuel vapour: no sparks, ventilate, extinguisher at hand, relieve pressure first.", _COMMON
    ),
    "electronics": Caution(
        "Control-unit lines: high-impedance meter or LED probe only, no test light, no jumper to "
        "battery positive.",
        _COMMON,
    ),
    "fused-bypass": Caution(
        "A bypass is fused no larger than the circuit's fuse, short, watched, taken out again and "
        "recorded.",
        _COMMON,
    ),
    "cut-out-bypass": Caution(
        "A pressure cut-out is bridged for seconds only, gauges watched; it is never a repair.",
        _COMMON,
    ),
    "pierce-seal": Caution(
        "Avoid piercing insulation; where it is done, seal it and note the place.",
        "Transport Canada TP 14331",
    ),
    "backprobe": Caution("Probe with a thin pin along the seal; do not spread a socket.", _COMMON),
    "lifting": Caution("Rated stands, firm ground, wheels blocked.", _COMMON),
    "crank": Caution(
        "The vehicle may move: out of gear, brake on, ignition disabled. Crank 30 s at most, then "
        "wait 2 min.",
        "US Army TM 10-3930-671-24",
    ),
    "exhaust": Caution("Run the engine outdoors or with extraction.", _COMMON),
    "road-test": Caution("The driver drives; a second person or a logger measures.", _COMMON),
    "hybrid": Caution(
        "Above 60 V DC or 30 V AC, orange cables: out of scope here, stop.", "ISO 6469-3"
    ),
    "coolant": Caution("Coolant is poisonous: collect it.", _COMMON),
    "licence": Caution("Local codes and licensed practice come first.", _COMMON),
}
"""Id to caution."""
