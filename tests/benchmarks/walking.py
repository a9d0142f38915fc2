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
_READY = ("type the reading", f"Step {WALKED + 1}:")


def rows(prepared: Prepared, rounds: int) -> list[Row]:
    """Keys of a walk with many steps behind it and the memory of a usual one, against the form."""
    return [*_keys(prepared, rounds), _memory(prepared)]


def _keys(prepared: Prepared, rounds: int) -> list[Row]:
    """Both programs run side by side; each key is typed into one and then into the other."""
    in_form: list[float] = []
    in_walk: list[float] = []
    resume = (*PROGRAM, "resume", prepared.long_case)
    with ExitStack() as stack:
        form = stack.enter_context(Terminal(BARE_FORM, prepared.environment, SIZE))
        walk = stack.enter_context(Terminal(resume, prepared.environment, SIZE))
        form.seconds_until("type here")
        walk.seconds_until(*_READY)
        for _ in range(rounds * 4):
            for terminal in (form, walk):
                terminal.settle()
                terminal.type(_EMPTY_LINE)
                terminal.settle()
            for length in range(1, len(_READING) + 1):
                in_form.append(_seconds_to_draw(form, _READING[:length]))
                in_walk.append(_seconds_to_draw(walk, _READING[:length]))
    what = f"key to its drawing, {WALKED} steps walked"
    p99_ms = percentile(in_walk, 99) * 1000
    form_p99_ms = percentile(in_form, 99) * 1000
    return [
        ratio(f"{what}, median", "bare form", median(in_walk), median(in_form), 1.5),
        Row(
            f"{what}, p99", "", p99_ms, 20, "ms", f"{len(in_walk)} keys; form {form_p99_ms:.1f} ms"
        ),
    ]


def _seconds_to_draw(terminal: Terminal, typed: str) -> float:
    """From typing the last of these signs until all of them stand in the line."""
    terminal.settle(0.05)
    at = terminal.type(typed[-1])
    return terminal.seconds_until(f"{typed} ", since=at)


def _memory(prepared: Prepared) -> Row:
    bare = _memory_mb(prepared, BARE_FORM, "type here")
    walking = _memory_mb(
        prepared, (*PROGRAM, "resume", prepared.short_case), "Step 6:", "type the reading"
    )
    detail = f"{walking:.1f} MB / {bare:.1f} MB"
    return Row("memory of a walk, 60 steps", "bare form", walking / bare, 1.5, detail=detail)


def _memory_mb(prepared: Prepared, arguments: tuple[str, ...], *words: str) -> float:
    with Terminal(arguments, prepared.environment) as terminal:
        terminal.seconds_until(*words)
        terminal.settle()
        return terminal.memory_mb()
