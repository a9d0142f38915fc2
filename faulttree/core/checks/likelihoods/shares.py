"""share-amount: a share of a table that is no share of a whole."""

from collections.abc import Iterator

from faulttree.core.checks.finding import Finding
from faulttree.core.circuit.amounts import amounts_in, si
from faulttree.core.expression import ExpressionError
from faulttree.core.likelihoods import LikelihoodTable
from faulttree.core.uncertain import CannotWorkOut
from faulttree.core.units import Quantity


def check(table: LikelihoodTable) -> Iterator[Finding]:
    """Shares of readings, and chances of faults that come and go, from none to all."""
    for written in amounts_in(table):
        text = written.value.text
        try:
            share = si(written.value, Quantity.RATIO)
        except (ExpressionError, CannotWorkOut):
            message = f"{text} is no share of a whole"
            yield Finding("share-amount", written.path, message, "Write it as 70 %.")
            continue
        if not 0.0 <= share <= 1.0:
            message = f"{text} is less than nothing or more than a whole"
            yield Finding("share-amount", written.path, message, "Write 0 % to 100 %.")
        elif written.path[-1] == "chance" and share in (0.0, 1.0):
            message = f"a fault that is there {text} of the time does not come and go"
            yield Finding("share-amount", written.path, message, "Write 1 % to 99 %.")
