"""Which conclusion of the author's tree an end of a plan comes to, if any."""

from faulttree.core.advice.as_problem import problem_of
from faulttree.core.advice.outcomes import HEALTHY, Tellings
from faulttree.core.bench.bench import Bench
from faulttree.core.bench.suspects import Row, Suspect, chosen, parts_of
from faulttree.core.order.plan import End
from faulttree.core.tree import Conclude


class Ends:
    """The verdicts of a bench sheet, held against the ends of a plan."""

    def __init__(self, bench: Bench, tellings: Tellings) -> None:
        """The verdicts of a tree on its bench, for a plan made of what its tests tell."""
        names = [each.id for each in problem_of(tellings).suspects]
        self._cars = dict(zip(names, tellings.rows, strict=True))
        suspects = {row.suspect.id: row.suspect for row in bench.rows if row.suspect}
        named = {
            verdict_id: frozenset(s.id for s in chosen(suspects.values(), verdict.names))
            for verdict_id, verdict in bench.sheet.verdicts.items()
        }
        sound = (
            name
            for name, step in bench.tree.steps.items()
            if isinstance(step, Conclude) and step.result == "no-fault-found"
        )
        self._no_fault = next(sound, None)
        self._verdicts = sorted(named.items(), key=lambda each: len(each[1]))

    def suspects(self, end: End) -> tuple[Suspect, ...]:
        """What may still be wrong at an end, each once."""
        found = (self._cars[name].suspect for name in end.suspects)
        return tuple({suspect.id: suspect for suspect in found if suspect}.values())

    def car(self, name: str) -> Row:
        """The car that a suspect of the plan stands for."""
        return self._cars[name]

    def parts(self, end: End) -> tuple[str, ...]:
        """The parts that may still be at fault at an end."""
        return parts_of(self.suspects(end))

    def verdict(self, end: End) -> str | None:
        """The verdict that names all of them, and as few others as can be.

        For a sound car alone it is the conclusion that there is no fault.
        """
        wanted = {suspect.id for suspect in self.suspects(end)}
        if wanted == {HEALTHY.id}:
            return self._no_fault
        return next((name for name, named in self._verdicts if wanted <= named), None)
