"""Where things lie on this machine: shipped trees, the technician's own trees, cases, settings."""

import os
from collections.abc import Iterator
from importlib import resources
from pathlib import Path


def shipped_trees() -> Path:
    """The folder of the trees that come with the program.

    A wheel carries it inside the package. In a checkout or an editable install it lies beside it.
    """
    packaged = Path(str(resources.files("faulttree"))) / "trees"
    if packaged.is_dir():
        return packaged
    return packaged.parent.parent / "trees"


def data_folder() -> Path:
    """Where cases are kept; FAULTTREE_DATA names another place."""
    named = os.environ.get("FAULTTREE_DATA")
    if named:
        return Path(named).expanduser()
    import platformdirs

    return Path(platformdirs.user_data_dir("faulttree", appauthor=False))


def cases_folder() -> Path:
    """The folder of all cases."""
    return data_folder() / "cases"


def own_trees() -> Path:
    """The technician's own trees."""
    return data_folder() / "trees"


def settings_folder() -> Path:
    """Where the settings and the technician's own instruments are; FAULTTREE_SETTINGS moves it."""
    named = os.environ.get("FAULTTREE_SETTINGS")
    if named:
        return Path(named).expanduser()
    import platformdirs

    return Path(platformdirs.user_config_dir("faulttree", appauthor=False))


def instrument_sheet() -> Path:
    """The technician's own instruments; the file need not exist."""
    return settings_folder() / "instruments.yaml"


def tree_folders() -> tuple[Path, ...]:
    """Where trees are looked for, own ones first."""
    return own_trees(), shipped_trees()


def yaml_files(path: Path) -> Iterator[Path]:
    """The file itself, or every .yaml and .yml file below a folder, in order."""
    if path.is_dir():
        yield from sorted(p for p in path.rglob("*") if _is_yaml(p))
    else:
        yield path


def yaml_beside(path: Path) -> list[Path]:
    """The other .yaml and .yml files in the same folder as a file, in order."""
    return sorted(p for p in path.parent.iterdir() if p != path and _is_yaml(p))


def _is_yaml(path: Path) -> bool:
    return path.suffix in (".yaml", ".yml") and path.is_file()
