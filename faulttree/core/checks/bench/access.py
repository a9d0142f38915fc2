"""unknown-access: a test needs something made ready that the sheet does not describe."""

from collections.abc import Iterator

from faulttree.core.bench.document import BenchSheet
from faulttree.core.checks.finding import Finding, nearest


def check(sheet: BenchSheet) -> Iterator[Finding]:
    """One finding for each need without an entry, and one for each entry that no test needs."""
    for name, test in sheet.tests.items():
        for index, need in enumerate(test.needs):
            if need not in sheet.access:
                path = ("tests", name, "needs", index)
                message = f"access has no entry {need}"
                yield Finding("unknown-access", path, message, nearest(need, sheet.access))
    needed = {need for test in sheet.tests.values() for need in test.needs}
    for name in sheet.access:
        if name not in needed:
            message = f"no test needs {name}"
            help = "List it under needs of the tests that share it, or take it out."
            yield Finding("unknown-access", ("access", name), message, help, "warning", on_key=True)
