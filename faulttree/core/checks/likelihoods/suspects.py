"""suspect-name, doubled-suspect, untold-suspect: suspects of a table that cannot be told apart."""

from collections.abc import Iterator

from faulttree.core.checks.finding import Finding
from faulttree.core.likelihoods import HEALTHY, OTHERS, LikelihoodTable


def check(table: LikelihoodTable) -> Iterator[Finding]:
    """Each suspect has a name and words of its own, and some row in which it shows."""
    seen: dict[tuple[str, str], str] = {}
    rows = {name for rows in table.readings.values() for name in rows}
    is_misspelt = bool(rows - {HEALTHY, OTHERS, *table.suspects})  # another rule tells it
    for name, suspect in table.suspects.items():
        path = ("suspects", name)
        if name in (HEALTHY, OTHERS):
            message = f"{name} is a row that is no suspect"
            help = "Give the suspect another name."
            yield Finding("suspect-name", path, message, help, on_key=True)
            continue
        other = seen.setdefault((suspect.part, suspect.words), name)
        if other != name:
            message = f"{name} is told in the same words as {other}"
            help = "Say in words or part what is different, or leave one of them."
            yield Finding("doubled-suspect", path, message, help, on_key=True)
        if name not in rows and not is_misspelt:
            message = f"no row of the table is of {name}"
            help = "Add a row where it shows itself, or take it out."
            yield Finding("untold-suspect", path, message, help, "warning", on_key=True)
