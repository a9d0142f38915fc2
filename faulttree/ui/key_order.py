"""Keys act in the order in which they were typed.

Textual hands every key on at once. A letter acts in the line that has the focus; Enter and
Backspace travel up to the program first, and what was typed after them overtakes them: `12.6`,
Enter, `3`, sent in one piece over a slow line, would be recorded as 12.63. So each key waits until
the one before has done all it does: it goes when the queues on its way have been passed through.
"""

from collections import deque
from collections.abc import Awaitable, Callable
from functools import partial
from typing import Any

from textual import events
from textual.app import App

_PASSES = 2
"""Ways through the queues: of the key itself, and of what it sets off."""
_MOST_PASSES = 30
"""The same while a new screen still has no focus."""
_PATIENCE_S = 0.5
"""How long a key waits at most [s], where a queue was closed before it was passed through."""


class KeyOrder:
    """Lets keys and pasted text act one after the other."""

    def __init__(self, app: App[Any], act: Callable[[events.Event], Awaitable[None]]) -> None:
        """`act` hands a key on to where the focus is."""
        self._app = app
        self._act = act
        self._waiting: deque[events.Event] = deque()
        self._number = 0
        self._is_acting = False

    async def take(self, event: events.Event) -> None:
        """A key was typed: it acts now, or as soon as those before it have acted."""
        self._waiting.append(event)
        if not self._is_acting:
            await self._next()
        elif len(self._waiting) == 1:
            self._app.set_timer(_PATIENCE_S, partial(self._done, self._number))

    async def _next(self) -> None:
        """Let the first of those that wait act."""
        self._is_acting = True
        self._number += 1
        await self._act(self._waiting.popleft())
        await self._pass(self._number, 1)

    async def _pass(self, key: int, passes: int) -> None:
        """Begin another way through the queues, or let the next key act."""
        screen = self._app.screen
        if passes > (_MOST_PASSES if screen.focused is None else _PASSES):
            await self._done(key)
        else:
            start = screen.focused or screen
            await self._hop([*start.ancestors_with_self], key, passes)

    async def _hop(self, way: list[Any], key: int, passes: int) -> None:
        """Stand in the next queue of the way; queues that are closed are left out."""
        for index, queue in enumerate(way):
            if queue.call_later(self._hop, way[index + 1 :], key, passes):
                return
        await self._pass(key, passes + 1)

    async def _done(self, key: int) -> None:
        """A key has acted, or had its time."""
        if key != self._number or not self._is_acting:
            return
        self._is_acting = False
        if self._waiting:
            await self._next()
            if self._waiting:
                self._app.set_timer(_PATIENCE_S, partial(self._done, self._number))
