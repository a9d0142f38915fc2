"""Why there are no expected readings, in one sentence."""

from collections.abc import Iterable
from pathlib import Path

from faulttree.core.tree import Tree
from faulttree.files import cases
from faulttree.files.documents import DocumentError, load_bench, load_circuit


def listed(names: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    *first, last = names
    return f"{', '.join(first)} and {last}" if first else last


def cannot_be_used(error: DocumentError | OSError) -> str:
    """A document of a case has errors, or cannot be read."""
    if isinstance(error, OSError):
        name, trouble = Path(str(error.filename)).name, error.strerror or str(error)
    else:
        first = next(p for p in error.problems.problems if p.severity == "error")
        name, trouble = Path(error.problems.path).name, f"line {first.line}: {first.message}"
    return f"{name} in the folder of this case cannot be used, so nothing is worked out: {trouble}."


def is_another(name: str, wanted: str) -> str:
    """A document of a case is not the one that its tree goes with."""
    return (
        f"{name} in the folder of this case does not go with its tree, so nothing is worked out: "
        f"{wanted} is wanted."
    )


def misfit(folder: Path, tree: Tree, error: Exception) -> str:
    """The documents of a case are sound each, and do not fit its tree.

    Args:
        folder: that of the case.
        tree: its tree.
        error: what came of it, told where the rules for bench sheets find nothing.
    """
    try:
        model = load_circuit(folder / cases.CIRCUIT).document
        load_bench(folder / cases.BENCH, tree, model)
    except (DocumentError, OSError) as found:
        return cannot_be_used(found)
    return (
        f"{cases.CIRCUIT} and {cases.BENCH} in the folder of this case do not fit its tree, so "
        f"nothing is worked out ({type(error).__name__}: {error})."
    )
