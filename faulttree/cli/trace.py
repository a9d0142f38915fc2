"""`faulttree trace`: the dropouts of a logged trace, how often they come, and what they follow."""

import argparse
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from faulttree.cli.exits import CANNOT_RUN, FINE
from faulttree.cli.output import has_all_letters, print_json
from faulttree.cli.progress import Progress
from faulttree.cli.trace_request import request_of
from faulttree.core.trace.analysis import analyse
from faulttree.core.trace.findings import Findings
from faulttree.core.trace.lines import Block, TraceRefused
from faulttree.files.cases import CaseError
from faulttree.files.documents import DocumentError
from faulttree.files.traces import TraceFile
from faulttree.render.plain_text import safe_line
from faulttree.render.trace_json import trace_json
from faulttree.render.trace_text import trace_text
from faulttree.render.trace_words import TraceWords
from faulttree.render.troubles import why_not


def run(arguments: argparse.Namespace) -> int:
    """Scan a trace and write what was found to stdout."""
    try:
        with TraceFile(arguments.file) as file:
            findings = _analysed(file, arguments)
            digest = file.digest() if arguments.case else ""
            size = file.size
    except TraceRefused as error:
        print(_told(arguments.file, error), file=sys.stderr)
        return CANNOT_RUN
    except OSError as error:
        print(why_not(error), file=sys.stderr)
        return CANNOT_RUN
    words = TraceWords(findings, arguments.file.name, not has_all_letters())
    if arguments.case and not _attached(words, arguments, digest, size):
        return CANNOT_RUN
    if arguments.json:
        print_json(trace_json(words))
    else:
        sys.stdout.write(trace_text(words, arguments.all))
    return FINE


def _analysed(file: TraceFile, arguments: argparse.Namespace) -> Findings:
    request = request_of(arguments)
    passes: list[int] = []

    def blocks() -> Iterator[Block]:
        passes.append(1)
        for block in file.blocks():
            progress.show((len(passes) - 1 + file.position / max(1, file.size)) / 2)
            yield block

    with Progress("Reading") as progress:
        return analyse(file.head(), blocks, request)


def _attached(words: TraceWords, arguments: argparse.Namespace, digest: str, size: int) -> bool:
    """Whether what was found is recorded in the case; why not is told on stderr."""
    from faulttree.cli.trace_case import attach

    try:
        case_id = attach(
            replace(words, only_ascii=False), digest, size, arguments.case, arguments.step
        )
    except (CaseError, DocumentError, TraceRefused) as error:
        print(why_not(error), file=sys.stderr)
        return False
    print(f"Recorded in the case {case_id}.", file=sys.stderr)
    return True


def _told(path: Path, error: TraceRefused) -> str:
    """The error with the place it is about."""
    place = error.source or str(path)
    for number in (error.line, error.column):
        place += f":{number}" if number else ""
    return f"{safe_line(place)}: {safe_line(str(error))}"
