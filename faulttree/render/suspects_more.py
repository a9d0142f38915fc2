"""What is behind a row of the list of suspects."""

from collections.abc import Iterator

from faulttree.core.suspects.by_part import Part, cleared_faults
from faulttree.core.suspects.ranking import Ranked
from faulttree.core.suspects.suspected import Suspected
from faulttree.core.walk.state import WalkState
from faulttree.render import suspects_here as here
from faulttree.render import suspects_words as say
from faulttree.render.line import Line
from faulttree.render.suspects_along import along_lines
from faulttree.render.suspects_why import why_lines

_NONE = (
    "It takes in faults that the {source} does not have, and a car without any. Where it "
    "grows, first look for a reading that was mistyped or taken at another place."
)
_BOTH = (
    "Two faults at once are thought of where no single one explains the readings; each is counted "
    "with its part as well."
)


def more(state: WalkState, suspected: Suspected, name: str) -> tuple[str, list[Line]]:
    """Title and text of what is behind a row.

    Args:
        state: the walk.
        suspected: what is suspect.
        name: what the row is asked for by.

    Raises:
        KeyError: there is no such row and no such part.
    """
    known = {
        here.CIRCUIT: ("Along the circuit", along_lines),
        here.CLEARED: ("Cleared", _cleared),
        here.NONE: ("None of these", _none),
        here.BOTH: ("Two at once", _both),
        here.OTHERS: ("Other parts", _others),
    }
    if name in known:
        title, lines = known[name]
        return title, list(lines(suspected))
    part = next((part for part in suspected.parts if part.name == name), None)
    if part is None:
        raise KeyError(name)
    return f"Suspect: {name}", list(why_lines(state, suspected, part))


def meant(suspected: Suspected, typed: str) -> list[str]:
    """What a person may mean: names that `more` knows.

    Args:
        suspected: what is suspect.
        typed: a number of the list, a word of a row, a part, a fault or an element by id, or a
            piece of a name.
    """
    text, rows = typed.casefold().strip(), here.entries(suspected)
    if text.isdecimal():
        numbered = rows[int(text) - 1 : int(text)] if int(text) else []
        return [row.name for row in numbered if row.is_part]
    if text in (here.CIRCUIT, here.CLEARED, here.NONE, here.BOTH, here.OTHERS):
        return [text]
    for is_meant in (_is_called, _has_id, _names, _has_fault):
        found = [part.name for part in suspected.parts if text and is_meant(part, text)]
        if found:
            return found
    return []


def _is_called(part: Part, text: str) -> bool:
    return part.name.casefold() == text


def _has_id(part: Part, text: str) -> bool:
    return any(fault.suspect.is_named_by((text,)) for fault in part.faults)


def _names(part: Part, text: str) -> bool:
    return text in part.name.casefold()


def _has_fault(part: Part, text: str) -> bool:
    return any(text in fault.suspect.words.casefold() for fault in part.faults)


def _cleared(suspected: Suspected) -> Iterator[Line]:
    """The faults that are cleared, by part."""
    count = here.cleared(suspected.suspicion).partition(": ")[2]
    yield Line("", f"{count}, to less than a tenth of what they were before any reading.")
    found: dict[str, list[Ranked]] = {}
    for each in cleared_faults(suspected.suspicion):
        found.setdefault(each.suspect.part, []).append(each)
    for part, faults in found.items():
        yield Line(part, say.faults(faults))


def _none(suspected: Suspected) -> Iterator[Line]:
    share = here.none_of_these(suspected.suspicion)
    yield Line("", f"{say.percent(share.now)} ({say.change(share)}).")
    yield Line("", _NONE.format(source=suspected.source))


def _both(suspected: Suspected) -> Iterator[Line]:
    yield Line("", _BOTH)
    found = here.pairs(suspected.suspicion)
    for two in found:
        yield Line(say.percent(two.share), f"{two.one.words}, and {two.other.words}")
    if not found:
        yield Line("", "There are none now.")


def _others(suspected: Suspected) -> Iterator[Line]:
    found = here.other_parts(suspected)
    for part in found:
        faults = say.faults(fault for fault in part.faults)
        yield Line(f"{say.percent(part.share.now)} {part.name}", faults)
    if not found:
        yield Line("", "There are none now.")
