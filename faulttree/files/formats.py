"""What a document says of itself under `format`, and the model that it is read with."""

from collections.abc import Callable
from typing import TYPE_CHECKING, get_args

from pydantic import BaseModel

from faulttree.core.checks.finding import Finding, nearest
from faulttree.core.instruments import InstrumentSheet
from faulttree.core.tree import Tree
from faulttree.core.vehicle import VehicleSheet
from faulttree.files.yaml_source import Source

if TYPE_CHECKING:
    from faulttree.core.bench.document import BenchSheet
    from faulttree.core.circuit.document import CircuitModel
    from faulttree.core.likelihoods import LikelihoodTable


def circuit_model() -> "type[CircuitModel]":
    """Looked up when one is read: its elements would slow down every start."""
    from faulttree.core.circuit.document import CircuitModel

    return CircuitModel


def bench_sheet() -> "type[BenchSheet]":
    """Looked up when one is read, as circuit models are."""
    from faulttree.core.bench.document import BenchSheet

    return BenchSheet


def likelihood_table() -> "type[LikelihoodTable]":
    """Looked up when one is read, as circuit models are."""
    from faulttree.core.likelihoods import LikelihoodTable

    return LikelihoodTable


FORMATS: dict[str, Callable[[], type[BaseModel]]] = {
    "tree/1": lambda: Tree,
    "vehicle/1": lambda: VehicleSheet,
    "instruments/1": lambda: InstrumentSheet,
    "circuit/1": circuit_model,
    "bench/1": bench_sheet,
    "likelihoods/1": likelihood_table,
}
"""What a document says of itself under `format`, and what gives its model."""


def is_of(document: BaseModel, model: Callable[[], type[BaseModel]]) -> bool:
    """Whether a document is of a format, told without looking its model up."""
    return FORMATS[str(getattr(document, "format"))] is model  # noqa: B009


def model_of(source: Source) -> tuple[type[BaseModel] | None, list[Finding]]:
    """The model of a document; None, and what is wrong, where it names none that there is."""
    if not isinstance(source.data, dict):
        return None, [_no_format("the document holds no keys")]
    written = source.data.get("format")
    if written is None:
        return None, [_no_format("format is missing")]
    if str(written) not in FORMATS:
        help = nearest(str(written), FORMATS)
        return None, [Finding("unknown-format", ("format",), f"unknown format {written}", help)]
    return FORMATS[str(written)](), []


def wrong_format(source: Source, model: type[BaseModel]) -> list[Finding]:
    """What is wrong where a document of one model is wanted and another is given."""
    found_model, findings = model_of(source)
    if findings or found_model is model:
        return findings
    wanted = get_args(model.model_fields["format"].annotation)[0]
    message = f"this is a {found_model.__name__ if found_model else 'document'}, not {wanted}"
    help = f"A file with format: {wanted} goes here."
    return [Finding("unknown-format", ("format",), message, help)]


def _no_format(message: str) -> Finding:
    help = f"Begin the document with format: and one of {', '.join(FORMATS)}."
    return Finding("unknown-format", (), message, help)
