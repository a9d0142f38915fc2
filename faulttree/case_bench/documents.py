"""Circuit model and bench sheet of a case, as it keeps them; read when they are first asked for.

So no walk waits for them, and what is wrong with them takes nothing away but what they tell.
"""

from collections.abc import Callable
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, TypeVar

from faulttree.case_bench.why_not import (
    CannotTellError,
    beyond_the_known,
    cannot_be_used,
    is_another,
    misfit,
    no_circuit,
    not_in_folder,
)
from faulttree.core.atmosphere import NoSuchPlace
from faulttree.core.refrigerant.table import OutOfTable
from faulttree.core.tree import Tree
from faulttree.files import cases
from faulttree.files.documents import DocumentError, load_bench, load_circuit, load_likelihoods

if TYPE_CHECKING:
    from faulttree.core.bench.document import BenchSheet
    from faulttree.core.circuit.circuit import Circuit
    from faulttree.core.likelihoods import LikelihoodTable

T = TypeVar("T")


class CaseDocuments:
    """The two documents in the folder of a case. One thread at a time works with them."""

    def __init__(self, folder: Path) -> None:
        """`folder` is that of the case."""
        self._folder = folder
        self._one_at_a_time = Lock()
        self._read: tuple[Circuit, BenchSheet] | None = None
        self._table: LikelihoodTable | None = None

    def why_not(self, tree: Tree, what: str) -> str:
        """Why nothing can be told, as far as it is known at once; empty otherwise.

        Args:
            tree: that of the case.
            what: what was asked for, in words: readings, suspects.
        """
        if tree.circuit is None:
            return no_circuit(what)
        names = (cases.CIRCUIT, cases.BENCH)
        missing = [name for name in names if not (self._folder / name).exists()]
        return not_in_folder(missing, what) if missing else ""

    def has_table(self, tree: Tree) -> bool:
        """Whether suspects are weighed by an author's table, as the tree has no circuit."""
        return tree.circuit is None and (self._folder / cases.LIKELIHOODS).exists()

    def work_by_table(self, tree: Tree, what: Callable[["LikelihoodTable"], T]) -> T:
        """Have something worked out with the table of likelihoods.

        Raises:
            CannotTellError: it cannot be used, or `what` goes wrong.
        """
        with self._one_at_a_time:
            try:
                if self._table is None:
                    path = self._folder / cases.LIKELIHOODS
                    self._table = load_likelihoods(path, tree).document
                return what(self._table)
            except (DocumentError, OSError) as error:
                raise CannotTellError(cannot_be_used(error)) from error

    def work(self, tree: Tree, what: Callable[["Circuit", "BenchSheet"], T]) -> T:
        """Have something worked out with the documents of a tree.

        They are sound each, but are not held to the rules that make sure they fit the tree: where
        they do not, anything may go wrong, and the walk has to go on all the same.

        Raises:
            CannotTellError: a document cannot be used, or `what` goes wrong.
        """
        with self._one_at_a_time:
            try:
                if self._read is None:
                    self._read = self._documents(tree)
                return what(*self._read)
            except CannotTellError:
                raise
            except (NoSuchPlace, OutOfTable) as error:
                raise CannotTellError(beyond_the_known(error)) from error
            except Exception as error:
                raise CannotTellError(misfit(self._folder, tree, error)) from error

    def _documents(self, tree: Tree) -> "tuple[Circuit, BenchSheet]":
        from faulttree.core.circuit.circuit import Circuit  # no walk waits for it

        try:
            model = load_circuit(self._folder / cases.CIRCUIT).document
            sheet = load_bench(self._folder / cases.BENCH).document
        except (DocumentError, OSError) as error:
            raise CannotTellError(cannot_be_used(error)) from error
        if model.id != tree.circuit:
            raise CannotTellError(is_another(cases.CIRCUIT, f"circuit model {tree.circuit}"))
        if sheet.tree != tree.id:
            raise CannotTellError(is_another(cases.BENCH, f"a bench sheet of {tree.id}"))
        return Circuit.from_document(model), sheet
