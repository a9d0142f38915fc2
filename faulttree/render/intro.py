"""What to know before the first step of a tree: is it the right one, what can hurt, how to see
the complaint."""

from faulttree.core.tree import Tree
from faulttree.core.walk.car_words import text_for
from faulttree.core.walk.state import WalkState
from faulttree.render.line import Line
from faulttree.render.step import caution_texts


def intro_lines(state: WalkState) -> list[Line]:
    """Cautions first, then what the tree fits, and how the complaint is seen and brought on."""
    tree = state.tree
    lines = [Line("Caution", text, "caution") for text in caution_texts(state, tree.cautions)]
    lines.append(Line("Fits", text_for(state, tree.applies_to)))
    if tree.not_for:
        lines.append(Line("Not for", text_for(state, tree.not_for)))
    lines.append(Line("Car", _car(state)))
    lines.append(Line("Have ready", instruments_needed(tree)))
    lines.append(Line("See the complaint first", text_for(state, tree.confirm.how)))
    lines.extend(Line("To bring it on", text_for(state, way)) for way in tree.confirm.provoke)
    if tree.confirm.provoke:
        lines.append(
            Line(
                "Count it if it comes and goes",
                "How often it shows, provoked in one way, says how long a repair has to be tried.",
            )
        )
    lines.append(
        Line(
            "Say whether it shows",
            "A good reading clears nothing that comes and goes unless the complaint shows itself "
            "at that moment.",
        )
    )
    return lines


def instruments_needed(tree: Tree) -> str:
    """The instruments a tree asks for, in words."""
    return ", ".join(i.words for i in tree.instruments)


def _car(state: WalkState) -> str:
    if state.sheet is None:
        return "no vehicle sheet: what is needed is asked for at its step"
    note = f". {state.sheet.note}" if state.sheet.note else ""
    return f"{state.sheet.name}{note}"
