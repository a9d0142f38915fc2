"""A tree on the bench: what each of its tests reads or shows on every car.

A value is a range: a relay that chatters swings between two readings, and a wire that floats may
show a ghost voltage on a meter of high impedance. What is not asked for is not solved.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import product

import numpy as np

from faulttree.core.bench.document import BenchSheet, ProofOf, SetOnCar, Sights, Test
from faulttree.core.bench.fitted import Fitted, fitted_at
from faulttree.core.bench.looks import Looks, Supplied, supplied
from faulttree.core.bench.reader import Reader, Shown
from faulttree.core.bench.setting import Setting, added, of_step, usual
from faulttree.core.bench.sights import NO, SURELY, Holds, all_hold, looked_at
from faulttree.core.bench.solved_rows import Bools, Rows
from faulttree.core.bench.suspects import SUPPLIES, Suspect, rows_of, suspects_of
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.tree import Conclude, Measure, Observe, Tree

Key = tuple[str, Fitted]
"""A step, and what is fitted to the car while it is done."""


@dataclass(frozen=True, slots=True, eq=False)
class Seen:
    """What an `observe` step shows: for each outcome whether it may be what is seen.

    Attributes:
        may_be: shape (n_outcomes, n_rows), in the order of the tree's outcomes.
        is_known: cars that were looked at, shape (n_rows,).
    """

    may_be: Bools
    is_known: Bools

    def are_alike(self, one: int, other: int) -> bool:
        """Whether two cars show the same."""
        return bool((self.may_be[:, one] == self.may_be[:, other]).all())


@dataclass(frozen=True, slots=True, eq=False)
class _Held:
    """How surely a proof holds on each car, as far as it is known."""

    holds: Holds
    is_known: Bools


class Bench:
    """A tree, its circuit and its bench sheet, all of them checked.

    Attributes:
        suspects: everything that may be wrong.
        rows: every car to try.
        looks: the circuit, solved for them as they are looked at.
    """

    def __init__(
        self,
        tree: Tree,
        circuit: Circuit,
        sheet: BenchSheet,
        supplies: Mapping[str, Supplied] | None = None,
        suspects: Sequence[Suspect] | None = None,
    ) -> None:
        """A bench.

        Args:
            tree, circuit, sheet: documents that have been checked.
            supplies: other batteries than those of the sheet, by name.
            suspects: other suspects than those of model and sheet.
        """
        self.tree, self.circuit, self.sheet = tree, circuit, sheet
        self.suspects = tuple(suspects_of(circuit.model, sheet) if suspects is None else suspects)
        names = tuple(supplies) if supplies else SUPPLIES
        self.rows = rows_of(self.suspects, names)
        self.looks = Looks(circuit, supplies or supplied(sheet, circuit.model), self.rows)
        self._reader = Reader(self.looks, sheet)
        self._all = np.arange(len(self.rows))
        self._usual = usual(circuit.model)
        self._shown: dict[Key, Shown | Seen] = {}
        self._proofs: dict[str, _Held] = {}

    @cached_property
    def complaint(self) -> Holds:
        """How surely each car shows the complaint, shape (n_rows,).

        A fuse that goes while it is looked for has gone for all that follows.
        """
        found = all_hold(self.looks, self.sheet.complaint, self._usual, self._all)
        looked = [
            s for each in self.sheet.complaint for s in looked_at(self.looks, each, self._usual)
        ]
        self.looks.keep_blown(dict.fromkeys(looked))
        return found

    def _arrive(self) -> None:
        """Have the cars come in: what the complaint has done to them is done."""
        self.complaint  # noqa: B018 - it is worked out once

    @cached_property
    def keys(self) -> tuple[Key, ...]:
        """Every measure and observe step that can be reached, with what may be fitted there."""
        return tuple(
            (step_id, fitted)
            for step_id, sets in fitted_at(self.tree).items()
            if isinstance(self.tree.steps[step_id], Measure | Observe)
            for fitted in sorted(sets, key=sorted)
        )

    def shown(self, key: Key, rows: Rows | None = None) -> Shown | Seen:
        """What a step shows on the cars.

        Args:
            key: the step.
            rows: the cars that are asked for, all by default; others may be unknown.
        """
        wanted = self._all if rows is None else rows
        self._arrive()
        step, test = self.tree.steps[key[0]], self.sheet.tests[key[0]]
        found = self._shown.get(key)
        if found is None:
            found = self._shown[key] = self._nothing(step)
        missing = np.unique(wanted[~found.is_known[wanted]])
        if not missing.size:
            return found
        if isinstance(found, Shown):
            assert isinstance(step, Measure)
            self._measure(step, test, key[1], missing, found)
        else:
            assert isinstance(step, Observe)
            self._observe(step, test, key[1], missing, found)
        return found

    def reads_posts(self, key: Key) -> bool:
        """Whether a `measure` step reads the battery's posts themselves."""
        step, test = self.tree.steps[key[0]], self.sheet.tests[key[0]]
        return isinstance(step, Measure) and self._reader.is_at_posts(step, test)

    def known(self, key: Key) -> Shown | Seen:
        """What a step shows, as far as it was asked for."""
        return self._shown[key]

    def _nothing(self, step: object) -> Shown | Seen:
        if isinstance(step, Measure):
            return Shown.nothing(len(self.rows))
        assert isinstance(step, Observe)
        shape = len(step.outcomes), len(self.rows)
        return Seen(np.zeros(shape, bool), np.zeros(len(self.rows), bool))

    def has_proof(self, conclusion: str) -> bool:
        """Whether the sheet says how the proof of a verdict is done."""
        step, verdict = self.tree.steps[conclusion], self.sheet.verdicts.get(conclusion)
        is_proved = isinstance(step, Conclude) and step.prove is not None
        return is_proved and verdict is not None and verdict.proof is not None

    def proof_holds(self, conclusion: str, rows: Rows) -> Holds:
        """How surely the proof of a verdict holds on the cars, shape (n_rows,).

        Only the cars asked for are known. The verdict must have a proof.
        """
        proof = self.sheet.verdicts[conclusion].proof
        assert proof is not None
        held = self._proofs.setdefault(
            conclusion,
            _Held(np.zeros(len(self.rows), np.int8), np.zeros(len(self.rows), bool)),
        )
        missing = np.unique(rows[~held.is_known[rows]])
        if missing.size:
            self._arrive()
            self._prove(proof, missing, held)
        return held.holds

    def _prove(self, proof: ProofOf, rows: Rows, held: _Held) -> None:
        """With good parts in, a car is the healthy one at the same supply."""
        for setting, here in self._settings(self._usual, proof, frozenset(), rows):
            mended = self._mended(proof, here)
            if proof.holds:
                held.holds[here] = all_hold(self.looks, proof.holds, setting, mended)
            else:
                complains = all_hold(self.looks, self.sheet.complaint, setting, mended)
                held.holds[here] = SURELY - complains
        held.is_known[rows] = True

    def _mended(self, proof: ProofOf, rows: Rows) -> Rows:
        """The car that each becomes when good parts are put in."""
        suspects = [self.rows[i].suspect for i in rows.tolist()]
        is_mended = [s is not None and s.is_named_by(proof.replaces) for s in suspects]
        return np.where(is_mended, self.looks.normal[rows], rows)

    def _chosen(self, name: str, rows: Rows) -> list[str]:
        """The state that a choice stands for on each car."""
        choice = self.sheet.choices[name]
        settings = [self._usual.having({choice.input: state}) for state in choice.of]
        self._prepare(choice.where, settings, rows)
        states = np.full(len(rows), choice.of[-1], dtype=object)
        for state in reversed(choice.of):
            there = self._usual.having({choice.input: state})
            states[all_hold(self.looks, choice.where, there, rows) > NO] = state
        return [str(state) for state in states]

    def _prepare(self, sights: Sights, settings: Iterable[Setting], rows: Rows) -> None:
        """Solve all that some sights look at in several settings at once."""
        wanted = [w for s in settings for each in sights for w in looked_at(self.looks, each, s)]
        self.looks.prepare(dict.fromkeys(wanted), np.union1d(rows, self.looks.normal[rows]))

    def _settings(
        self, base: Setting, written: SetOnCar, fitted: Fitted, rows: Rows
    ) -> Iterator[tuple[Setting, Rows]]:
        """Every setting of a test, with the cars on which it is done so."""
        fits = [self.sheet.fits[name] for name in sorted(fitted) if name in self.sheet.fits]
        parts = [*fits, written]
        values = (value.text for part in parts for value in part.inputs.values())
        used = sorted({text for text in values if text in self.sheet.choices})
        chosen = {name: np.array(self._chosen(name, rows)) for name in used}
        for states in product(*(self.sheet.choices[name].of for name in used)):
            picked = dict(zip(used, states, strict=True))
            is_so = [chosen[name] == state for name, state in picked.items()]
            here = rows[np.logical_and.reduce(is_so)] if is_so else rows
            if here.size:
                setting = base
                for part in parts:
                    setting = setting.joined_by(added(self.circuit.model, part, picked))
                yield setting, here

    def _measure(self, step: Measure, test: Test, fitted: Fitted, rows: Rows, into: Shown) -> None:
        base = of_step(self.circuit.model, step.set_up)
        for setting, here in self._settings(base, test, fitted, rows):
            self._reader.read(step, test, setting, here, into)

    def _observe(self, step: Observe, test: Test, fitted: Fitted, rows: Rows, into: Seen) -> None:
        into.is_known[rows] = True
        if test.anything:
            into.may_be[:, rows] = True
            return
        places = {outcome.name: i for i, outcome in enumerate(step.outcomes)}
        base = of_step(self.circuit.model, step.set_up)
        for setting, here in self._settings(base, test, fitted, rows):
            every = tuple(sight for sights in test.outcomes.values() for sight in sights)
            self._prepare(every, [setting], here)
            is_open = np.ones(len(here), bool)
            for name, sights in test.outcomes.items():
                held = all_hold(self.looks, sights, setting, here)
                into.may_be[places[name], here] = is_open & (held > NO)
                is_open &= held < SURELY


__all__ = ["Bench", "Key", "Seen", "Shown"]
