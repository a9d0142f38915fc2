"""The trees at hand: a list made from the heads of the files alone, and the way to one tree."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from faulttree.core.search import Searchable, searchable
from faulttree.files.places import tree_folders, yaml_beside, yaml_files
from faulttree.files.yaml_source import YamlError, parse_yaml

TREE_FORMAT = "tree/1"
VEHICLE_FORMAT = "vehicle/1"


class NoSuchTreeError(Exception):
    """No tree, or no readable one, goes by a name; the message says what to do."""


@dataclass(frozen=True, slots=True)
class TreeEntry:
    """A tree as it stands in the list.

    `trouble` says why its head cannot be read; it is empty when it can.
    """

    path: Path
    id: str
    version: str = ""
    title: str = ""
    system: str = ""
    complaint: tuple[str, ...] = ()
    trouble: str = ""

    @property
    def words(self) -> Searchable:
        """What a search looks at."""
        return searchable(self.id, (self.title, *self.complaint), (self.system, self.id))


def list_trees(folders: Sequence[Path] | None = None) -> list[TreeEntry]:
    """Every tree of the folders, by system and title; a tree of the same id counts once."""
    found: dict[str, TreeEntry] = {}
    for folder in folders if folders is not None else tree_folders():
        if folder.is_dir():
            for entry in _entries(folder):
                found.setdefault(entry.id, entry)
    return sorted(found.values(), key=lambda e: (bool(e.trouble), e.system, e.title))


def find_tree(name: str, folders: Sequence[Path] | None = None) -> Path:
    """The file of a tree named by its id, its file or its folder.

    Raises:
        NoSuchTreeError: nothing goes by that name.
    """
    path = Path(name)
    if path.is_file():
        return path
    if path.is_dir():
        inside = [e for e in _entries(path) if not e.trouble]
        if len(inside) == 1:
            return inside[0].path
        raise NoSuchTreeError(f"{name} holds {len(inside)} trees; name one of their files.")
    if path.suffix in (".yaml", ".yml") or path.parent != Path():
        raise NoSuchTreeError(f"There is no file or folder {name}.")
    known = {entry.id: entry.path for entry in list_trees(folders)}
    if name not in known:
        from faulttree.core.checks.finding import nearest  # the first frame does without it

        raise NoSuchTreeError(f"No tree is called “{name}”. {nearest(name, known)}")
    return known[name]


def sheets_beside(tree: Path) -> list[Path]:
    """The vehicle sheets in a tree's folder."""
    return [p for p in yaml_beside(tree) if _format(p) == VEHICLE_FORMAT]


def _entries(folder: Path) -> Iterator[TreeEntry]:
    for path in yaml_files(folder):
        entry = _entry(path)
        if entry is not None:
            yield entry


def _entry(path: Path) -> TreeEntry | None:
    try:
        head = parse_yaml(path.read_bytes(), stop_at="steps").data
    except YamlError as error:
        first = error.problems[0]
        return TreeEntry(path, path.parent.name, trouble=f"line {first.line}: {first.message}")
    except OSError as error:
        return TreeEntry(path, path.parent.name, trouble=error.strerror or str(error))
    if not isinstance(head, dict) or head.get("format") != TREE_FORMAT:
        return None
    complaint = head.get("complaint")
    return TreeEntry(
        path,
        str(head.get("id", path.parent.name)),
        str(head.get("version", "")),
        _line(head.get("title", "")),
        _line(head.get("system", "")),
        tuple(_line(c) for c in complaint) if isinstance(complaint, list) else (),
    )


def _line(value: object) -> str:
    return " ".join(str(value).split())


def _format(path: Path) -> str:
    try:
        head = parse_yaml(path.read_bytes(), stop_at="version").data
    except (YamlError, OSError):
        return ""
    return str(head.get("format", "")) if isinstance(head, dict) else ""
