"""`faulttree prove`: trees walked under every fault of their circuits."""

import argparse
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

from faulttree.cli.bench import TROUBLES, put_on_bench, words_for
from faulttree.cli.exits import CANNOT_RUN, FINDINGS, FINE
from faulttree.cli.instruments import own_or_usual
from faulttree.cli.output import print_json
from faulttree.core.checks.finding import nearest
from faulttree.core.instruments import Instrument
from faulttree.core.proof.tree_proof import prove
from faulttree.files.benches import NoBenchError, OnBench, open_bench
from faulttree.files.documents import load_tree
from faulttree.files.library import NoSuchTreeError, find_tree, list_trees
from faulttree.render.proof_json import proofs_json
from faulttree.render.proof_junit import proofs_junit
from faulttree.render.proof_paths import names_known, suspects_named
from faulttree.render.proof_result import Result, result_of
from faulttree.render.proof_text import proof_text
from faulttree.render.proof_walks import walks_text
from faulttree.render.troubles import why_not


def run(arguments: argparse.Namespace) -> int:
    """Prove every tree named; folders are searched."""
    if arguments.show and arguments.junit:
        print("--show goes with the text or with --json.", file=sys.stderr)
        return CANNOT_RUN
    own, opened = own_or_usual(), _Opened(arguments.vehicle)
    is_told_at_once = not (arguments.json or arguments.junit or arguments.show)
    results: list[Result] = []
    for on_bench in opened.all(arguments.tree):
        results.append(_proved(on_bench, own))
        if is_told_at_once:
            _write(proof_text(results[-1]), is_first=len(results) == 1)
    if not results:
        return CANNOT_RUN
    if arguments.show and not any(suspects_named(r.proof, arguments.show) for r in results):
        return _unknown(arguments.show, results)
    if not is_told_at_once:
        _tell_all(arguments, results)
    if opened.is_incomplete:
        return CANNOT_RUN
    return FINE if all(result.is_proved for result in results) else FINDINGS


def _tell_all(arguments: argparse.Namespace, results: Sequence[Result]) -> None:
    """Write what is told of all trees together."""
    if arguments.json:
        print_json(proofs_json(results, arguments.show))
    elif arguments.junit:
        sys.stdout.write(proofs_junit(results))
    else:
        texts = [text for result in results if (text := _walks(result, arguments.show))]
        for index, text in enumerate(texts):
            _write(text, is_first=index == 0)


def _proved(on_bench: OnBench, own: Sequence[Instrument]) -> Result:
    bench, judge = put_on_bench(on_bench, own)
    return result_of(prove(bench, judge), judge, words_for(on_bench, own))


def _walks(result: Result, name: str) -> str:
    return walks_text(result.proof, suspects_named(result.proof, name), result.words)


def _write(text: str, is_first: bool) -> None:
    sys.stdout.write(text if is_first else f"\n{text}")
    sys.stdout.flush()


def _unknown(name: str, results: Sequence[Result]) -> int:
    known = dict.fromkeys(n for result in results for n in names_known(result.proof))
    trees = " and ".join(result.id for result in results)
    print(f"No fault of {trees} is called “{name}”. {nearest(name, known)}", file=sys.stderr)
    return CANNOT_RUN


class _Opened:
    """Trees as they are named, opened one after the other; what cannot be is told on stderr.

    Attributes:
        is_incomplete: something that was asked for cannot be proved.
    """

    def __init__(self, vehicle: str | None) -> None:
        self._vehicle = vehicle
        self.is_incomplete = False

    def all(self, names: Sequence[str]) -> Iterator[OnBench]:
        """The trees that can be proved, each once."""
        for path, is_named in dict(self._paths(names)).items():
            try:
                yield open_bench(path, self._vehicle)
            except TROUBLES as error:
                print(why_not(error), file=sys.stderr)
                self.is_incomplete |= is_named or not _has_no_circuit(path, error)

    def _paths(self, names: Sequence[str]) -> Iterator[tuple[Path, bool]]:
        """Files of trees, and whether each is named itself or found in a folder."""
        for name in names:
            if Path(name).is_dir():
                found = sorted(entry.path for entry in list_trees([Path(name)]))
                yield from ((path, False) for path in found)
                if not found:
                    self._tell(NoSuchTreeError(f"{name} holds no tree."))
                continue
            try:
                yield find_tree(name), True
            except NoSuchTreeError as error:
                self._tell(error)

    def _tell(self, error: Exception) -> None:
        print(error, file=sys.stderr)
        self.is_incomplete = True


def _has_no_circuit(path: Path, error: Exception) -> bool:
    """Whether a tree does without a circuit model, which is no mistake."""
    return isinstance(error, NoBenchError) and load_tree(path).document.circuit is None
