"""Answers from a file, for scripts: what a person would have typed, step by step.

complaint: present                 # state of the complaint at the beginning: present, absent,
                                   # unknown, or provoked by WHAT
battery: 12.58 V                   # whenever a battery voltage is asked for
vehicle: {ac-fuse-rating: 10 A}    # vehicle data the sheet does not give
answers:
  battery-rest: 12.58 V            # one line
  relay-feed: ["120", "no", "12.1 V"]   # or several, typed one after the other
  verdict-relay: [accept, held, "1", clean, clean]
"""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from faulttree.core.walk.events import Complaint
from faulttree.core.walk.respond import COMPLAINT_WORDS, Refused, read_complaint
from faulttree.files.yaml_source import YamlError, parse_yaml


class AnswersError(Exception):
    """The file is not one of answers; the message says what is expected."""


@dataclass(frozen=True, slots=True)
class Answers:
    """What is typed at each step; every text as a person would type it."""

    answers: Mapping[str, tuple[str, ...]]
    vehicle: Mapping[str, str]
    battery: str = ""
    complaint: str = ""


_KEYS = {"complaint", "battery", "vehicle", "answers"}


def load_answers(path: Path) -> Answers:
    """Read a YAML or JSON file of answers.

    Raises:
        AnswersError: it cannot be read or says something else.
    """
    try:
        data = parse_yaml(path.read_bytes()).data
    except YamlError as error:
        first = error.problems[0]
        raise AnswersError(f"{path}:{first.line}:{first.column}: {first.message}") from error
    except OSError as error:
        raise AnswersError(f"{path}: {error.strerror or error}") from error
    if not isinstance(data, dict) or not set(data) <= _KEYS or "answers" not in data:
        raise AnswersError(f"{path}: expected the keys answers, vehicle, battery and complaint.")
    answers, vehicle = data["answers"], data.get("vehicle") or {}
    if not isinstance(answers, dict) or not isinstance(vehicle, dict):
        raise AnswersError(f"{path}: answers and vehicle are lists of name: text.")
    return Answers(
        {str(step): _lines(path, str(step), typed) for step, typed in answers.items()},
        {str(name): _text(path, str(name), text) for name, text in vehicle.items()},
        _text(path, "battery", data.get("battery", "")),
        _complaint(path, data.get("complaint", "")),
    )


def _lines(path: Path, step: str, typed: object) -> tuple[str, ...]:
    texts = typed if isinstance(typed, list) else [typed]
    return tuple(_text(path, step, text) for text in texts)


def _text(path: Path, name: str, typed: object) -> str:
    """What stands in the file, as typed: 12.50 is a reading to the last of its digits."""
    if isinstance(typed, float | bool):
        raise AnswersError(f"{path}: {name}: put quotes round {typed}, so that every digit counts.")
    if not isinstance(typed, str | int):
        raise AnswersError(f"{path}: {name}: expected a text or a list of texts.")
    return str(typed)


def _complaint(path: Path, typed: object) -> str:
    text = _text(path, "complaint", typed)
    read = read_complaint(text) if text else None
    if isinstance(read, Refused) or read == (Complaint.PROVOKED, ""):
        raise AnswersError(f"{path}: complaint: expected {COMPLAINT_WORDS}.")
    return text
