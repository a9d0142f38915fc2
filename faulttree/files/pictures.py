"""Drawings written into a folder of the technician's choice."""

import os
from collections.abc import Mapping
from pathlib import Path


class PictureExists(Exception):
    """A file is there already that is not to be overwritten; the message says what to do."""


def write_pictures(
    folder: Path, stem: str, drawings: Mapping[str, str], may_replace: bool
) -> dict[str, Path]:
    """Write drawings as `stem-name.svg`, each whole or not at all.

    Args:
        folder: made if it is not there.
        stem: what all their names begin with; none where it is empty.
        drawings: SVG documents by their names.
        may_replace: files of the same name are those of an earlier state, and replaced.

    Returns:
        The files, by the names of the drawings.

    Raises:
        PictureExists: one of them is there and may not be replaced; none is written then.
        OSError: the folder or a file cannot be written.
    """
    begin = f"{stem}-" if stem else ""
    paths = {name: folder / f"{begin}{name}.svg" for name in drawings}
    taken = next((path for path in paths.values() if path.exists()), None)
    if taken and not may_replace:
        raise PictureExists(f"{taken} is there already and is kept as it is: name another folder.")
    folder.mkdir(parents=True, exist_ok=True)
    for name, path in paths.items():
        unfinished = path.with_name(f".{path.name}.{os.getpid()}")
        try:
            unfinished.write_text(drawings[name], "utf-8")
            unfinished.replace(path)
        finally:
            unfinished.unlink(missing_ok=True)
    return paths
