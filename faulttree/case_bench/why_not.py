"""Why the circuit of a case tells nothing, in one sentence."""

from collections.abc import Iterable
from pathlib import Path

from faulttree.core.tree import Tree
from faulttree.files import cases
from faulttree.files.documents import DocumentError, load_bench, load_circuit


class CannotTellError(Exception):
    """The circuit of a case tells nothing; the message says why in one sentence."""


def listed(names: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    *first, last = names
    return f"{', '.join(first)} and {last}" if first else last


def no_circuit(what: str) -> str:
    """The tree of a case names no circuit model.

    Args:
        what: what was asked for: readings, suspects.
    """
    return f"This tree has no circuit model that {what} could be worked out from."


def not_in_folder(names: Iterable[str], what: str) -> str:
    """Documents are missing in the folder of a case; `what` as above."""
    missing = list(names)
    return (
        f"This case has no {listed(missing)} in its folder, so {what} cannot be worked out; a new "
        "case of this tree keeps them."
    )


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


def beyond_the_known(error: Exception) -> str:
    """What was told of the day lies where neither air nor refrigerant is known."""
    return (
        "What was told of this day, its air or its place, lies beyond what is known of air and "
        f"refrigerant, so nothing is worked out: {error}. Correct that reading."
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
