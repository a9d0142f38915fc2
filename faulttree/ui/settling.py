"""From an answer to the record: an answer may have to be confirmed, or to be given a reason."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from textual.app import App

from faulttree.core.walk.respond import Confirm, NeedsReason, Recorded, Refused
from faulttree.session import Outcome
from faulttree.ui.screens.dialogs import ConfirmDialog, TextDialog

Act = Callable[[bool, str], Outcome]
"""Gives an answer to the session: confirmed or not, and with the words asked for, if any."""


@dataclass(frozen=True, slots=True)
class Settling:
    """Carries answers through the questions they raise.

    Attributes:
        app: where dialogs are opened.
        recorded: told what is on disk.
        refused: told why something is not.
    """

    app: App[Any]
    recorded: Callable[[Recorded], None]
    refused: Callable[[str], None]

    def settle(self, act: Act, confirmed: bool = False, words: str = "", asked: str = "") -> None:
        """Answer, and ask what has to be asked for it.

        Args:
            act: the answer.
            confirmed: what is unlikely was confirmed.
            words: what was typed into a dialog.
            asked: what that dialog asked.
        """
        outcome = act(confirmed, words)
        if isinstance(outcome, Confirm):
            self.app.push_screen(
                ConfirmDialog(outcome.question),
                lambda yes: self.settle(act, True, words, asked) if yes else None,
            )
        elif isinstance(outcome, NeedsReason):
            self.ask_for_words(outcome.question, act, confirmed)
        elif isinstance(outcome, Refused):
            self.refused(outcome.message)
            if asked:
                self.ask_for_words(asked, act, False, words, outcome.message)
        else:
            self.recorded(outcome)

    def ask_for_words(
        self, question: str, act: Act, confirmed: bool = False, words: str = "", trouble: str = ""
    ) -> None:
        """Ask for words in a dialog, then answer with them; words that were refused stand in it."""
        self.app.push_screen(
            TextDialog(question, words, trouble),
            lambda text: self.settle(act, confirmed, text, question) if text else None,
        )
