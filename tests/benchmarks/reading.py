"""How long it takes to check and to load trees, against the libraries that do the groundwork."""

from collections.abc import Callable
from pathlib import Path
from time import perf_counter
from typing import Any

from .child import PROGRAM, seconds_to_run
from .prepared import Prepared
from .rows import Row, Sample, in_turn, ratio

_GROUNDWORK = """
import sys
from pydantic import BaseModel, ConfigDict, Field, TypeAdapter, ValidationError
from ruamel.yaml import YAML
class Model(BaseModel):
    name: str
with open(sys.argv[1], encoding="utf-8") as file:
    for _ in YAML(typ="safe", pure=False).parse(file.read()):
        pass
"""
"""What no check can do without: both libraries imported, and the events of the text read.

The smallest model is made as well: pydantic imports a part of itself only then.
"""


def rows(prepared: Prepared, rounds: int) -> list[Row]:
    """`check` of a usual and of a very large tree, and loading the large one with its places."""
    return [
        _check(prepared, prepared.tree_60, 60, rounds, 1.3),
        _check(prepared, prepared.tree_1000, 1000, rounds, 1.4),
        _load(prepared.tree_1000.read_bytes(), rounds),
    ]


def _check(prepared: Prepared, tree: Path, steps: int, rounds: int, goal: float) -> Row:
    groundwork, check = in_turn(
        rounds,
        lambda: seconds_to_run(("-c", _GROUNDWORK, str(tree)), prepared.environment),
        lambda: seconds_to_run((*PROGRAM, "check", str(tree)), prepared.environment),
    )
    return ratio(f"check, {steps} steps", "imports and events", check, groundwork, goal)


def _load(data: bytes, rounds: int) -> Row:
    from ruamel.yaml import YAML

    from faulttree.files.yaml_source import parse_yaml, reader_name

    if not reader_name().startswith("C"):
        raise RuntimeError("ruamel.yaml.clib is not installed: there is nothing to compare with")
    safe, ours = in_turn(
        rounds,
        _timed(lambda: YAML(typ="safe", pure=False).load(data)),
        _timed(lambda: parse_yaml(data)),
    )
    detail = f"{safe * 1000:.1f} ms / {ours * 1000:.1f} ms"
    what = "load with places, 1000 steps, times faster"
    return Row(what, "safe C loader", safe / ours, 4, detail=detail, more_is_better=True)


def _timed(work: Callable[[], Any]) -> Sample:
    def sample() -> float:
        began = perf_counter()
        work()
        return perf_counter() - began

    return sample
