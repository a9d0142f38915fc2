"""The section of a report on the gauges: the pair in signs, its figures, links to drawings."""

from collections.abc import Iterator, Mapping
from urllib.parse import quote

from faulttree.core.air_conditioning.on_gauges import HIGH_SIDE, LOW_SIDE, OnGauges
from faulttree.core.walk.on_gauges import on_gauges
from faulttree.core.walk.state import WalkState
from faulttree.render.markdown_lines import FENCE
from faulttree.render.markdown_text import words

_TITLES = {"gauges": "Low side and high side", "cycle": "Pressure and enthalpy"}
_UNQUOTED = "/:~"


def gauges_to_report(state: WalkState) -> OnGauges | None:
    """What is read on gauges, once one of them was read; None before, or without gauges."""
    on = on_gauges(state)
    return on if on and (LOW_SIDE in on.reads or HIGH_SIDE in on.reads) else None


def gauges(state: WalkState, width: int, pictures: Mapping[str, str]) -> Iterator[str]:
    """The section, ready for Markdown; nothing where no gauge was read.

    Args:
        state: the walk.
        width: longest line wanted [characters].
        pictures: where the drawings are, as a link from the report, by their names.
    """
    on = gauges_to_report(state)
    if on is None:
        return
    from faulttree.render.cycle_here import figure_lines  # only cases with gauges wait for these
    from faulttree.render.gauges import gauge_lines
    from faulttree.render.gauges_here import gauge_pair

    yield "## On the gauges"
    yield ""
    yield FENCE
    for line in gauge_lines(gauge_pair(on, state.units), width):
        yield line.replace("`", "'")  # nothing that was typed ends the fence
    yield FENCE
    yield ""
    told = [each.text for each in figure_lines(on, state.units)]
    for text in told:
        yield f"- {words(text)}"
    if told:
        yield ""
    for name, target in pictures.items():
        yield f"![{_TITLES[name]}]({quote(target, safe=_UNQUOTED)})"
        yield ""
