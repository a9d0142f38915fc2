"""A walk while it is used: from a key to its drawing, and the memory it takes."""

from contextlib import ExitStack
from statistics import median

from .child import BARE_FORM, PROGRAM, Terminal
from .prepared import WALKED, Prepared
from .rows import Row, percentile, ratio

SIZE = (120, 40)
"""Columns and rows: wide enough for the path to stand beside the step."""
_READING = "12.34"
_EMPTY_LINE = "\x15"
"""Ctrl+U."""


def rows(prepared: Prepared, rounds: int) -> list[Row]:
    """Keys of a walk with many steps behind it and the memory of a usual one, against the form."""
    return [*_keys(prepared, rounds), _memory(prepared)]


def _keys(prepared: Prepared, rounds: int) -> list[Row]:
    """Both programs run side by side; a reading is typed into each in turn, key by key."""
    with ExitStack() as stack:
        form = stack.enter_context(Terminal(BARE_FORM, prepared.environment, SIZE))
        form.seconds_until("type here")
        walk = stack.enter_context(
            Terminal((*PROGRAM, "resume", prepared.long_case), prepared.environment, SIZE)
        )
        walk.seconds_until(f"Step {WALKED + 1}:", "type the reading")
        in_form: list[float] = []
        in_walk: list[float] = []
        understood: list[float] = []
        for _ in range(rounds * 4):
            in_form += [echo for echo, _ in _typed(form, "")]
            timed = _typed(walk, "Understood")
            in_walk += [echo for echo, _ in timed]
            understood += [all_drawn for _, all_drawn in timed]
    what = f"key to its drawing, {WALKED} steps walked"
    count = f"{len(in_walk)} keys"
    return [
        ratio(f"{what}, median", "bare form", median(in_walk), median(in_form), 1.5),
        Row(f"{what}, p99", "", percentile(in_walk, 99) * 1000, 20, "ms", count),
        Row(
            "key to what the reading would mean, median", "", median(understood) * 1000, 50, "ms",
            count,
        ),
    ]


def _typed(terminal: Terminal, follows: str) -> list[tuple[float, float]]:
    """A reading typed into the empty line: for each key, until it stands there and until all does.

    Args:
        terminal: where to type.
        follows: words that are drawn after the key itself; empty when there are none.
    """
    terminal.type(_EMPTY_LINE)
    terminal.settle()
    timed = []
    for n, key in enumerate(_READING, 1):
        at = terminal.type(key)
        echo = terminal.seconds_until(_READING[:n] + " ", since=at)
        timed.append((echo, terminal.seconds_until(follows, since=at) if follows else echo))
        terminal.settle(0.05)
    return timed


def _memory(prepared: Prepared) -> Row:
    environment = prepared.environment
    with Terminal(BARE_FORM, environment) as form:
        form.seconds_until("type here")
        form.settle()
        bare = form.memory_mb()
    with Terminal((*PROGRAM, "resume", prepared.short_case), environment) as walk:
        walk.seconds_until("Step 6:", "type the reading")
        walk.settle()
        walking = walk.memory_mb()
    detail = f"{walking:.1f} MB / {bare:.1f} MB"
    return Row("memory of a walk, 60 steps", "bare form", walking / bare, 1.5, detail=detail)
