"""The logged traces of a case, in its report."""

from collections.abc import Iterator

from faulttree.core.walk.events import TraceAttached
from faulttree.core.walk.state import WalkState
from faulttree.render.markdown_text import words
from faulttree.render.report_facts import named, time_of


def traces(state: WalkState) -> Iterator[str]:
    """Each trace with what was found in it; nothing where none was looked through."""
    attached = [event for event in state.events if isinstance(event, TraceAttached)]
    if not attached:
        return
    yield "## Logged traces"
    yield ""
    for number, event in enumerate(attached, 1):
        trace, marker = event.trace, f"{number}. "
        below = f"{' ' * len(marker)}- "
        yield (
            f"{marker}{time_of(state, event)}, at {named(state, event.step)}: "
            f"“{words(trace.column)}” of {words(trace.file)}"
        )
        for line in (*trace.told, *trace.listed):
            yield f"{below}{words(line)}"
        if trace.sha256:
            yield f"{below}The file had {trace.size:,} bytes, SHA-256 {trace.sha256}"
    yield ""
