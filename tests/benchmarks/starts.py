"""How long starts take: to the first frame, to the first question, and of what draws nothing."""

import re
from collections.abc import Sequence

from .child import BARE_FORM, PROGRAM, Terminal, run, seconds_to_run
from .prepared import Prepared
from .rows import Row, Sample, in_turn, ratio

FORM = "bare form"
_HEAVY = {"textual", "pydantic", "ruamel"}


def rows(prepared: Prepared, rounds: int) -> list[Row]:
    """First frames against the bare form; --help and --version against the bare interpreter."""
    return [*_first_frames(prepared, rounds), *_answers_at_once(prepared, rounds)]


def _first_frames(prepared: Prepared, rounds: int) -> list[Row]:
    form, home, resumed, begun = in_turn(
        rounds,
        _first_frame(prepared, BARE_FORM, "left pane", "type here"),
        _first_frame(prepared, PROGRAM, "what does the customer say?", "type words"),
        _first_frame(
            prepared, (*PROGRAM, "resume", prepared.short_case), "Step 6:", "type the reading"
        ),
        _first_frame(prepared, (*PROGRAM, "walk", str(prepared.tree_60)), "Before you begin"),
    )
    return [
        ratio("home screen, to the first frame", FORM, home, form, 1.25),
        ratio("resume, 60 steps, to the question", FORM, resumed, form, 1.5),
        ratio("walk, 60 steps, to the page before the first step", FORM, begun, form, 1.5),
    ]


def _first_frame(prepared: Prepared, arguments: Sequence[str], *words: str) -> Sample:
    def sample() -> float:
        with Terminal(arguments, prepared.environment) as terminal:
            return terminal.seconds_until(*words)

    return sample


def _answers_at_once(prepared: Prepared, rounds: int) -> list[Row]:
    interpreter, help, version = in_turn(
        rounds,
        lambda: seconds_to_run(("-c", "pass"), prepared.environment),
        lambda: seconds_to_run((*PROGRAM, "--help"), prepared.environment),
        lambda: seconds_to_run((*PROGRAM, "--version"), prepared.environment),
    )
    return [
        ratio("--help", "bare interpreter", help, interpreter, 3),
        ratio("--version", "bare interpreter", version, interpreter, 3),
        _heavy_imports(prepared),
    ]


def _heavy_imports(prepared: Prepared) -> Row:
    told = run(("-X", "importtime", *PROGRAM, "--help"), prepared.environment)
    imported = set(re.findall(r"\|\s*(\w+)", told)) & _HEAVY
    what = "--help: textual, pydantic, ruamel imported"
    return Row(what, "", len(imported), 0, "", ", ".join(sorted(imported)))
