"""The days of a bench sheet in words: the weather that readings are told for."""

from collections.abc import Iterator, Mapping

from faulttree.core.bench.looks import Supplied
from faulttree.core.circuit.amounts import si
from faulttree.core.circuit.document import CircuitModel
from faulttree.core.figures import show
from faulttree.render.proof_words import Words


def day_lines(supplies: Mapping[str, Supplied], model: CircuitModel, words: Words) -> Iterator[str]:
    """One line for each battery, where a day counts; what it does not say is as usual.

    Args:
        supplies: batteries and days, by name.
        model: the circuit, which says what is usual.
        words: how the things of the tree are written.
    """
    loop = model.loop
    weather = (*loop.ambient.names, *loop.humidity.names) if loop else ()
    set_by_day = (name for each in supplies.values() for name in each.day)
    names = dict.fromkeys((*sorted(weather), *set_by_day))
    for supply, each in supplies.items():
        told = []
        for name in names:
            known, quantity = model.inputs[name], model.inputs[name].quantity
            value = each.day.get(name, known.usual.text)
            if quantity is not None:
                number = si(known.usual, quantity) if name not in each.day else float(value)
                value = show(number, quantity, words.units)
            told.append(f"{known.words or name.replace('-', ' ')} {value}")
        if told:
            yield words.text(f"day ({supply}): {', '.join(told)}")
