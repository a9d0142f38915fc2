"""Reading documents: trees, sheets and circuit models, with every problem at once."""

from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Generic, TypeVar

from pydantic import BaseModel, ValidationError

from faulttree.core.checks import check_tree, walkable
from faulttree.core.checks.finding import Finding
from faulttree.core.checks.vehicle_fits import check_fit, check_sheet
from faulttree.core.instruments import InstrumentSheet
from faulttree.core.problem import FileProblems, Problem, in_order
from faulttree.core.tree import Tree
from faulttree.core.vehicle import VehicleSheet
from faulttree.files.beside import Named, find_beside, missing_for, trees_beside
from faulttree.files.document_errors import findings_of, located
from faulttree.files.formats import (
    bench_sheet,
    circuit_model,
    is_of,
    likelihood_table,
    model_of,
    wrong_format,
)
from faulttree.files.yaml_source import Source, YamlError, parse_yaml

if TYPE_CHECKING:
    from faulttree.core.bench.document import BenchSheet
    from faulttree.core.circuit.document import CircuitModel
    from faulttree.core.likelihoods import LikelihoodTable


D = TypeVar("D", bound=BaseModel)


class DocumentError(Exception):
    """A document cannot be used; `problems` says why, with places."""

    def __init__(self, problems: FileProblems) -> None:
        super().__init__(f"{problems.path} cannot be used")
        self.problems = problems


@dataclass(frozen=True, slots=True)
class Loaded(Generic[D]):
    """A document that can be used.

    Attributes:
        document: its content.
        data: the bytes it was read from, which a case keeps.
        hash: SHA-256 of those bytes, hexadecimal.
        problems: warnings; there are no errors among them.
    """

    document: D
    data: bytes
    hash: str
    problems: FileProblems


def content_hash(data: bytes) -> str:
    """SHA-256 of a document's bytes, hexadecimal."""
    import hashlib  # it brings in OpenSSL, which a check does without

    return hashlib.sha256(data).hexdigest()


def load_tree(path: Path) -> Loaded[Tree]:
    """The tree in a file.

    Raises:
        DocumentError: it is not a tree, or has errors.
        OSError: it cannot be read.
    """
    return _load(path.read_bytes(), str(path), Tree)


def load_vehicle(path: Path) -> Loaded[VehicleSheet]:
    """The vehicle sheet in a file; raises as `load_tree` does."""
    return _load(path.read_bytes(), str(path), VehicleSheet)


def load_instruments(path: Path) -> Loaded[InstrumentSheet]:
    """The instrument sheet in a file; raises as `load_tree` does."""
    return _load(path.read_bytes(), str(path), InstrumentSheet)


def load_circuit(path: Path) -> "Loaded[CircuitModel]":
    """The circuit model in a file; raises as `load_tree` does."""
    return circuit_from_bytes(path.read_bytes(), str(path))


def circuit_from_bytes(data: bytes, name: str) -> "Loaded[CircuitModel]":
    """A circuit model from bytes; raises DocumentError."""
    return _load(data, name, circuit_model())


def load_bench(
    path: Path, tree: Tree | None = None, model: "CircuitModel | None" = None
) -> "Loaded[BenchSheet]":
    """The bench sheet in a file, held against its tree and its circuit model.

    Args:
        path: the file.
        tree, model: those that it names; None leaves out the rules that need them.

    Raises:
        DocumentError: it is no bench sheet, has errors, or does not fit the two.
        OSError: it cannot be read.
    """
    return bench_from_bytes(path.read_bytes(), str(path), tree, model)


def bench_from_bytes(
    data: bytes, name: str, tree: Tree | None = None, model: "CircuitModel | None" = None
) -> "Loaded[BenchSheet]":
    """A bench sheet from bytes, held against its tree and circuit model; raises DocumentError."""
    from faulttree.core.checks.bench import check_bench

    return _load(data, name, bench_sheet(), lambda sheet: check_bench(sheet, tree, model))


def load_likelihoods(path: Path, tree: Tree | None = None) -> "Loaded[LikelihoodTable]":
    """The table of likelihoods in a file, held against its tree where that is given.

    Raises:
        DocumentError: it is no such table, has errors, or does not fit the tree.
        OSError: it cannot be read.
    """
    from faulttree.core.checks.likelihoods import check_likelihoods

    data, model = path.read_bytes(), likelihood_table()
    return _load(data, str(path), model, lambda table: check_likelihoods(table, tree))


def tree_from_bytes(data: bytes, name: str) -> Loaded[Tree]:
    """A tree from the bytes a case kept.

    It is held only to the rules that a walk relies on: a rule added later must not shut a
    technician out of an old case.

    Raises:
        DocumentError: it can no longer be walked.
    """
    return _load(data, name, Tree, walkable)


def vehicle_from_bytes(data: bytes, name: str) -> Loaded[VehicleSheet]:
    """A vehicle sheet from the bytes a case kept; raises DocumentError."""
    return _load(data, name, VehicleSheet)


def check_file(path: Path) -> FileProblems:
    """Everything that is wrong with one file, whichever document it holds."""
    try:
        data = path.read_bytes()
    except OSError as error:
        message = f"cannot be read: {error.strerror or error}"
        return FileProblems(str(path), "", (Problem("unreadable-file", "error", message, 0, 0),))
    return _checked(data, str(path), lambda document: _beside(document, path))


def check_bytes(data: bytes, name: str, trees: Iterable[Tree] = ()) -> FileProblems:
    """Everything that is wrong with a document.

    Args:
        data: its bytes.
        name: what to call it.
        trees: where it is a vehicle sheet, the trees that its values should fit.
    """
    return _checked(data, name, lambda document: _fit(document, trees))


def _checked(data: bytes, name: str, more: Callable[[BaseModel], list[Finding]]) -> FileProblems:
    try:
        source = parse_yaml(data)
    except YamlError as error:
        return FileProblems(name, _text_of(data), in_order(error.problems))
    model, found = model_of(source)
    if model is not None:
        document, found = _build(source, model)
        found += more(document) if document is not None else []
    problems = in_order(located(f, source) for f in dict.fromkeys(found))
    return FileProblems(name, source.text, problems)


def _beside(document: BaseModel, path: Path) -> list[Finding]:
    """What is wrong with a document as it stands beside the others in its folder."""
    if isinstance(document, VehicleSheet):
        return _fit(document, _trees_beside(path))
    if isinstance(document, Tree):
        return list(missing_for(document, path))
    if is_of(document, likelihood_table):
        return _fit_of_table(document, path)
    return _fit_of_bench(document, path) if is_of(document, bench_sheet) else []


def _fit(document: BaseModel, trees: Iterable[Tree]) -> list[Finding]:
    """What keeps a vehicle sheet from fitting trees; nothing where it is another document."""
    if not isinstance(document, VehicleSheet):
        return []
    return [finding for tree in trees for finding in check_fit(tree, document)]


def _trees_beside(path: Path) -> Iterator[Tree]:
    """The trees in the folder of a file that can be used."""
    for tree in trees_beside(path):
        with suppress(DocumentError, OSError):
            yield load_tree(tree).document


def _fit_of_bench(document: BaseModel, path: Path) -> list[Finding]:
    """What keeps a bench sheet from fitting the tree and the circuit model that it names."""
    from faulttree.core.checks.bench import check_bench

    sheet = document
    assert isinstance(sheet, bench_sheet())
    found: list[Finding] = []
    tree = _named(path, "tree", sheet.tree, load_tree, found)
    model = _named(path, "circuit", sheet.circuit, load_circuit, found)
    return [*found, *check_bench(sheet, tree, model)]


def _fit_of_table(document: BaseModel, path: Path) -> list[Finding]:
    """What is wrong with a table of likelihoods beside the tree that it names."""
    from faulttree.core.checks.likelihoods import check_likelihoods

    table = document
    assert isinstance(table, likelihood_table())
    found: list[Finding] = []
    tree = _named(path, "tree", table.tree, load_tree, found)
    return [*found, *check_likelihoods(table, tree)]


def _named(
    path: Path, kind: Named, name: str, load: "Callable[[Path], Loaded[D]]", found: list[Finding]
) -> D | None:
    """The document that another one names; None, and a finding, where it cannot be used."""
    there = find_beside(path, kind, name)
    if isinstance(there, Finding):
        found.append(there)
        return None
    try:
        return load(there).document
    except DocumentError:
        help = f"Mend it first; faulttree check {there.name} tells what is wrong."
        trouble = "has errors"
    except OSError as error:
        help, trouble = "Look at who may read it.", f"cannot be read: {error.strerror or error}"
    found.append(Finding("not-beside", (kind,), f"{there.name} {trouble}", help))
    return None


def _load(
    data: bytes, name: str, model: type[D], check: Callable[[D], list[Finding]] | None = None
) -> Loaded[D]:
    try:
        source = parse_yaml(data)
    except YamlError as error:
        raise DocumentError(FileProblems(name, _text_of(data), in_order(error.problems))) from None
    document, found = None, wrong_format(source, model)
    if not found:
        document, found = _build(source, model, check)
    problems = FileProblems(name, source.text, in_order(located(f, source) for f in found))
    if document is None or problems.has_errors:
        raise DocumentError(problems)
    return Loaded(document, data, content_hash(data), problems)


def _build(
    source: Source, model: type[D], check: Callable[[D], list[Finding]] | None = None
) -> tuple[D | None, list[Finding]]:
    try:
        document = model.model_validate(source.data)
    except ValidationError as error:
        return None, findings_of(error, model, source.data)
    return document, (check or _own_rules)(document)


def _own_rules(document: BaseModel) -> list[Finding]:
    """What is wrong with a document by itself."""
    if isinstance(document, Tree):
        return check_tree(document)
    if isinstance(document, VehicleSheet):
        return check_sheet(document)
    if is_of(document, circuit_model):
        from faulttree.core.checks.circuit import check_circuit

        assert isinstance(document, circuit_model())
        return check_circuit(document)
    return []


def _text_of(data: bytes) -> str:
    return data.decode("utf-8", errors="replace")
