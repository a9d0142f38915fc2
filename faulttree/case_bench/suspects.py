"""Suspects of one case: worked out when asked for, kept while the readings that stand stay so."""

from typing import TYPE_CHECKING, Any

from faulttree.case_bench.documents import CaseDocuments
from faulttree.case_bench.why_not import CannotTellError
from faulttree.core.walk.state import WalkState

if TYPE_CHECKING:
    from faulttree.case_bench.suspects_by_table import Told
    from faulttree.case_bench.suspects_on_bench import Known, SuspectsOnBench
    from faulttree.core.bench.document import BenchSheet
    from faulttree.core.circuit.circuit import Circuit
    from faulttree.core.likelihoods import LikelihoodTable
    from faulttree.core.suspects.suspected import Suspected


class CaseSuspects:
    """What is suspect after the readings of a case; safe to ask from several threads."""

    def __init__(self, documents: CaseDocuments) -> None:
        self._documents = documents
        self._bench: SuspectsOnBench | None = None
        self._kept: tuple[Known, Suspected] | None = None
        self._by_table: tuple[Told, Suspected] | None = None

    def why_not(self, state: WalkState) -> str:
        """Why nothing can be told, as far as it is known at once; empty otherwise."""
        if self._documents.has_table(state.tree):
            return ""
        return self._documents.why_not(state.tree, "suspects")

    def known(self, state: WalkState) -> "Suspected | None":
        """What is suspect, if it was worked out for the readings that stand now; never waits."""
        if self._by_table is not None:
            return self._known_by_table(state)
        if self._kept is None:
            return None
        known, suspected = self._kept
        assert self._bench is not None
        try:
            return suspected if known == self._bench.known(state) else None
        except Exception:
            # Whoever asks goes on to have it worked out, and is told there what is wrong.
            return None

    def after(self, state: WalkState) -> "Suspected":
        """What is suspect; a new reading takes a moment, and a new battery voltage longer.

        Raises:
            CannotTellError: it cannot be worked out.
        """
        why_not = self.why_not(state)
        if why_not:
            raise CannotTellError(why_not)

        if self._documents.has_table(state.tree):
            return self._after_by_table(state)

        def worked_out(circuit: "Circuit", sheet: "BenchSheet") -> "Suspected":
            return self._worked_out(state, circuit, sheet)

        return self._documents.work(state.tree, worked_out)

    def report_lines(self, state: WalkState) -> tuple[str, ...]:
        """What the readings say, as a section of the report ready for Markdown.

        It is empty where the tree has no circuit model and no table, or nothing was read, and never
        fails: where nothing can be worked out, it says why.
        """
        if not self.tells(state):
            return ()
        from faulttree.render.report_suspects import section, section_without

        try:
            return tuple(section(state, self.after(state)))
        except CannotTellError as error:
            return tuple(section_without(str(error)))

    def report_data(self, state: WalkState) -> dict[str, Any] | None:
        """The same as plain data; None where the tree has no circuit model and no table."""
        if not self.tells(state):
            return None
        from faulttree.render.suspects_json import suspects_json

        try:
            return suspects_json(state, self.after(state))
        except CannotTellError as error:
            return {"cannot-tell": str(error)}

    def tells(self, state: WalkState) -> bool:
        """Whether there is anything to weigh faults by: a circuit model, or an author's table."""
        return state.tree.circuit is not None or self._documents.has_table(state.tree)

    def _known_by_table(self, state: WalkState) -> "Suspected | None":
        from faulttree.case_bench.suspects_by_table import told_by

        told, suspected = self._by_table or (None, None)
        return suspected if told == told_by(state) else None

    def _after_by_table(self, state: WalkState) -> "Suspected":
        from faulttree.case_bench.suspects_by_table import suspected_by, told_by

        def worked_out(table: "LikelihoodTable") -> "Suspected":
            return suspected_by(table, state)

        suspected = self._documents.work_by_table(state.tree, worked_out)
        self._by_table = told_by(state), suspected
        return suspected

    def _worked_out(self, state: WalkState, circuit: "Circuit", sheet: "BenchSheet") -> "Suspected":
        from faulttree.case_bench.suspects_on_bench import SuspectsOnBench

        suspected = self.known(state)
        if suspected is None:
            if self._bench is None:
                self._bench = SuspectsOnBench(state.tree, circuit, sheet)
            known = self._bench.known(state)
            suspected = self._bench.after(known)
            self._kept = known, suspected
        return suspected
