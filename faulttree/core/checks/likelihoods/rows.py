"""unknown-suspect, missing-healthy: rows of a table that belong to nobody, or the one it lacks."""

from collections.abc import Iterator

from faulttree.core.checks.finding import Finding, nearest
from faulttree.core.likelihoods import HEALTHY, OTHERS, LikelihoodTable


def check(table: LikelihoodTable) -> Iterator[Finding]:
    """Each row is of a suspect, of the others, or of a healthy car; the last is always there."""
    known = (HEALTHY, OTHERS, *table.suspects)
    for step, rows in table.readings.items():
        for name in rows:
            if name not in known:
                message = f"the table has no suspect {name}"
                help = nearest(name, known)
                path = ("readings", step, name)
                yield Finding("unknown-suspect", path, message, help, on_key=True)
        if HEALTHY not in rows:
            message = f"nothing says what {step} shows on a healthy car"
            help = f"Add a row {HEALTHY}: faults that come and go are away at times."
            yield Finding("missing-healthy", ("readings", step), message, help, on_key=True)
