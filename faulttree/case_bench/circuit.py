"""What the circuit of one case tells, in all, and what of it may be looked at."""

from pathlib import Path

from faulttree.case_bench.documents import CaseDocuments
from faulttree.case_bench.next_tests import CaseNextTests
from faulttree.case_bench.readings import ExpectedReadings
from faulttree.case_bench.suspects import CaseSuspects
from faulttree.core.walk.state import WalkState


class CaseCircuit:
    """What the circuit of a case tells; nothing of it is worked out before it is asked for.

    Attributes:
        expected: what the steps would read.
        suspects: what is suspect after the readings.
        next_tests: the best tests from here, whatever the tree asks.
        shows_expected, shows_suspects, shows_next_tests: whether these may be looked at.
    """

    def __init__(self, folder: Path) -> None:
        """`folder` is that of the case."""
        documents = CaseDocuments(folder)
        self.expected = ExpectedReadings(documents)
        self.suspects = CaseSuspects(documents)
        self.next_tests = CaseNextTests(documents, self.suspects)
        self.shows_expected = True
        self.shows_suspects = True
        self.shows_next_tests = True

    def why_nothing_expected(self, state: WalkState, step_id: str) -> str:
        """Why expected readings of a step cannot be looked at; empty where they can."""
        if not self.shows_expected:
            return "Expected readings are not shown in this case."
        return self.expected.why_not(state, step_id)

    def why_no_suspects(self, state: WalkState) -> str:
        """Why suspects cannot be looked at; empty where they can."""
        if not self.shows_suspects:
            return "Suspects are not shown in this case."
        return self.suspects.why_not(state)

    def why_no_next_tests(self, state: WalkState) -> str:
        """Why the best next tests cannot be looked at; empty where they can."""
        if not self.shows_next_tests:
            return "Next tests are not shown in this case."
        return self.next_tests.why_not(state)

    def report_lines(self, state: WalkState) -> tuple[str, ...]:
        """The section of the report on suspects; it may take a moment. Empty where not shown."""
        return self.suspects.report_lines(state) if self.shows_suspects else ()
