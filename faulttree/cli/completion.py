"""`faulttree completion`: a completion script, made by shtab from the command line itself.

Tree and case names are asked of the program when Tab is pressed, so that new ones complete too.
"""

import argparse
from collections.abc import Iterator

from faulttree.cli.exits import FINE

_ASKS = {
    "tree": "faulttree trees --ids",
    "trees": "faulttree trees --ids",
    "case": "faulttree cases --ids",
    "sum": "faulttree calc --ids",
}
"""Argument to the command that lists what may stand there."""
_BASH = """
_faulttree_{name}() {{
  compgen -W "$({command} 2>/dev/null)" -- "$1"
}}
"""
_ZSH = """
_faulttree_{name}() {{
  local -a names
  names=(${{(f)"$({command} 2>/dev/null)"}})
  compadd -a names
}}
"""


def run(arguments: argparse.Namespace) -> int:
    """Print the script for one shell."""
    import shtab

    from faulttree.cli.main import parser

    top = parser()
    for action in _actions(top):
        if action.dest in _ASKS:
            function = f"_faulttree_{action.dest}"
            action.complete = {"bash": function, "zsh": function}  # type: ignore[attr-defined]
        elif action.dest in ("paths", "vehicle", "answers", "write", "file", "marks"):
            action.complete = shtab.FILE  # type: ignore[attr-defined]
        elif action.dest == "pictures":
            action.complete = shtab.DIRECTORY  # type: ignore[attr-defined]
    preamble: dict[str, str] = {"bash": _functions(_BASH), "zsh": _functions(_ZSH)}
    script = shtab.complete(top, arguments.shell, preamble=preamble)  # type: ignore[arg-type]
    print(script)
    return FINE


def _functions(template: str) -> str:
    return "".join(template.format(name=n, command=c) for n, c in _ASKS.items())


def _actions(parser: argparse.ArgumentParser) -> Iterator[argparse.Action]:
    for action in parser._actions:
        yield action
        if isinstance(action, argparse._SubParsersAction):
            for below in action.choices.values():
                yield from _actions(below)
