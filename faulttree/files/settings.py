"""What the technician chose once: units, colours. Kept as JSON; a spoilt file costs nothing."""

import json
import os
from dataclasses import asdict, dataclass, replace
from pathlib import Path

from faulttree.core.units import UnitSystem

FILE = "settings.json"


@dataclass(frozen=True, slots=True)
class Settings:
    """Everything that can be chosen."""

    units: UnitSystem = UnitSystem.BOTH
    dark: bool = True
    technician: str = ""


def load(folder: Path) -> Settings:
    """The settings, with the usual value for whatever is missing or not understood."""
    try:
        data = json.loads((folder / FILE).read_text("utf-8"))
    except (OSError, ValueError, RecursionError):
        return Settings()
    if not isinstance(data, dict):
        return Settings()
    settings = Settings()
    if data.get("units") in list(UnitSystem):
        settings = replace(settings, units=UnitSystem(data["units"]))
    if isinstance(data.get("dark"), bool):
        settings = replace(settings, dark=data["dark"])
    if isinstance(data.get("technician"), str):
        settings = replace(settings, technician=data["technician"][:60])
    return settings


def save(folder: Path, settings: Settings) -> None:
    """Write the settings whole or not at all.

    Raises:
        OSError: they cannot be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    unfinished = folder / f".{FILE}.{os.getpid()}"
    unfinished.write_text(json.dumps(asdict(settings), indent=1) + "\n", "utf-8")
    unfinished.replace(folder / FILE)
