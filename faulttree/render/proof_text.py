"""A proof as text in 80 columns: verdict, figures, where the faults end, what to mend."""

from collections.abc import Iterator

from faulttree.render.page import wrapped
from faulttree.render.proof_advice import advice_lines
from faulttree.render.proof_edges import edge_lines
from faulttree.render.proof_faults import fault_lines
from faulttree.render.proof_figures import figure_lines
from faulttree.render.proof_landings import landing_lines
from faulttree.render.proof_result import Result
from faulttree.render.proof_words import own_instruments


def proof_text(result: Result) -> str:
    """All of a proof, one line feed at the end."""
    return "".join(f"{line}\n" for line in _lines(result))


def verdict(result: Result) -> str:
    """Whether the tree is proved, and why not, in one line."""
    if result.is_proved:
        return "proved"
    return f"not proved: {'; '.join(result.why_not)}"


def _lines(result: Result) -> Iterator[str]:
    tree = result.proof.tree
    yield from wrapped(f"{tree.id} {tree.version}: {verdict(result)}", "", "  ")
    own = ", ".join(result.words.text(i.name) for i in own_instruments(result.words))
    if own:
        yield from wrapped(f"Read with your own: {own}")
    outside = any(each.worth.is_wrong and not each.is_counted for each in result.landings)
    yield from figure_lines(result.measures, result.wanted, outside)
    yield from landing_lines(result.landings, result.words)
    yield from fault_lines(result.proof, result.ends, result.words)
    yield from advice_lines(result)
    yield from edge_lines(result.proof, result.words)
