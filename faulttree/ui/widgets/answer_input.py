"""The line a reading is typed into. While it is empty, command letters go to the screen."""

from textual import events
from textual.widgets import Input

from faulttree.ui.commands import LETTERS


class AnswerInput(Input):
    """One permanent input; it is never rebuilt, so the focus never gets lost."""

    takes_words = False
    """True while words are wanted: letters are text then, not commands."""

    def _leaves(self, character: str | None) -> bool:
        return not self.takes_words and not self.value and character in LETTERS

    def check_consume_key(self, key: str, character: str | None) -> bool:
        """Tell the footer which keys the line keeps for itself.

        Command letters stay in the footer while a reading is typed: it would jump at each of them.
        """
        if not self.takes_words and character in LETTERS:
            return False
        return super().check_consume_key(key, character)

    async def _on_key(self, event: events.Key) -> None:
        if self._leaves(event.character):
            event.prevent_default()
            return
        await super()._on_key(event)
