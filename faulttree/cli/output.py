"""What is written to stdout: data as JSON, and which letters can be shown there."""

import codecs
import json
import sys
from typing import Any


def print_json(data: Any) -> None:
    """Write data as JSON.

    Raises:
        ValueError: a number in it is infinite or none, which JSON does not have.
    """
    json.dump(data, sys.stdout, indent=1, allow_nan=False)
    print()


def has_all_letters() -> bool:
    """Whether every letter can be written to stdout as it is."""
    return codecs.lookup(sys.stdout.encoding or "ascii").name.startswith("utf")
