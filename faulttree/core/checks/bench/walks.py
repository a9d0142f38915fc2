"""Going through a bench sheet: its sights, and what it sets on the car, with their places."""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet, SetOnCar, Sight
from faulttree.core.checks.finding import DocumentPath


def sights_in(sheet: BenchSheet) -> Iterator[tuple[DocumentPath, Sight]]:
    """Every sight and those inside it."""
    for path, sights in sight_lists_in(sheet):
        for index, sight in enumerate(sights):
            yield from _with_inner((*path, index), sight)


def sight_lists_in(sheet: BenchSheet) -> Iterator[tuple[DocumentPath, tuple[Sight, ...]]]:
    """Every list of sights of which all must hold; those inside other sights are left out."""
    yield ("complaint",), sheet.complaint
    for name, choice in sheet.choices.items():
        yield ("choices", name, "where"), choice.where
    for name, test in sheet.tests.items():
        for outcome, sights in test.outcomes.items():
            yield ("tests", name, "outcomes", outcome), sights
    for name, verdict in sheet.verdicts.items():
        if verdict.proof:
            yield ("verdicts", name, "proof", "holds"), verdict.proof.holds


def _with_inner(path: DocumentPath, sight: Sight) -> Iterator[tuple[DocumentPath, Sight]]:
    yield path, sight
    for key, inside in (("any", sight.any), ("all", sight.all), ("not", sight.not_)):
        for index, inner in enumerate(inside or ()):
            yield from _with_inner((*path, key, index), inner)


def set_ups_in(sheet: BenchSheet) -> Iterator[tuple[DocumentPath, SetOnCar]]:
    """Everything that says how the car is set for a look."""
    for name, test in sheet.tests.items():
        yield ("tests", name), test
    for name, fit in sheet.fits.items():
        yield ("fits", name), fit
    for name, verdict in sheet.verdicts.items():
        if verdict.proof:
            yield ("verdicts", name, "proof"), verdict.proof
