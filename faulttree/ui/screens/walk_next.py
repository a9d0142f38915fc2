"""The best next tests in the walk: a page to take one from, and the way back to the tree."""

from faulttree.core.walk.respond import Refused
from faulttree.ui.screens.next_tests import Chosen, NextTestsScreen
from faulttree.ui.screens.walk_suspects import WalkSuspects


class WalkNext(WalkSuspects):
    """What the key for the best next test does, and Escape while one is asked aside."""

    def action_show_next(self) -> None:
        """Open the page."""
        why_not = self._session.circuit.why_no_next_tests(self._session.state)
        if why_not:
            self.say(why_not, "warning")
        else:
            self.app.push_screen(NextTestsScreen(self._session), self._take)

    def _take(self, chosen: Chosen | None) -> None:
        if chosen is None:
            return
        outcome = self._session.aside(*chosen)
        self._said = outcome.message if isinstance(outcome, Refused) else ""
        self._said_tone = "warning"
        self.show_walk()

    def key_escape(self) -> None:
        """From a list beside the step to the question; from a test aside to the tree."""
        view = self._beside
        if view is not None and view.has_keyboard:
            super().key_escape()
        elif self._session.is_aside:
            self._session.return_to_tree()
            self._said = ""
            self.show_walk()
