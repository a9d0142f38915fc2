"""What dropouts follow, in sentences."""

from collections.abc import Iterator

from faulttree.core.trace.marks import Follows
from faulttree.render.trace_words import TraceWords, chance, percent, span

LEVEL = 0.05
"""A chance below this is called more than chance; common practice, no source."""


def marks_lines(words: TraceWords) -> Iterator[str]:
    """A sentence or two for each kind of mark; nothing where there are none."""
    findings = words.findings
    if not findings.follows:
        return
    for each in findings.follows:
        yield f"After “{words.text(each.label)}”: {_counted(words, each)} {_meaning(words, each)}"
    kinds = len(findings.follows)
    corrected = f", corrected for {kinds} kinds of marks (Holm)" if kinds > 1 else ""
    yield (
        f"An episode is one {words.noun}, or several less than {span(findings.request.apart_s)} "
        "apart: the chatter of one bad contact counts once. Exact binomial test"
        f"{corrected}."
    )


def follows_more_than_chance(follows: Follows) -> bool:
    """Whether episodes follow marks more than chance would."""
    return follows.corrected < LEVEL


def _counted(words: TraceWords, each: Follows) -> str:
    window = span(words.findings.request.window_s)
    outside = f" ({each.outside:,} more outside the trace)" if each.outside else ""
    if not each.marks:
        return f"no mark lies on the trace{outside}."
    if not each.episodes:
        return f"{words.counted(each.marks, 'mark')}{outside}, and no episode to follow."
    usual = each.share * each.episodes
    return (
        f"{each.hits} of {words.counted(each.episodes, 'episode')} began within {window} of "
        f"{words.counted(each.marks, 'mark')}{outside}. Within {window} of them lies "
        f"{percent(each.share)} of the time: chance alone would bring {usual:.1f}."
    )


def _meaning(words: TraceWords, each: Follows) -> str:
    if not each.marks or not each.episodes:
        return ""
    told = f"p = {chance(each.corrected)}"
    if follows_more_than_chance(each):
        return f"So many by chance are rare ({told}): what was done there has to do with it."
    if each.least_chance * len(words.findings.follows) >= LEVEL:
        return f"Too few episodes to tell ({told}): chance could let even all of them follow."
    return f"Chance could do that ({told}): nothing is shown, neither for it nor against it."
