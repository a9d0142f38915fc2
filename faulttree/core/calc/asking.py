"""The inputs of a sum asked for one after the other."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from faulttree.core.calc.amounts import Amount
from faulttree.core.calc.answered import Answered, answered
from faulttree.core.calc.kinds import Kind, bare_unit
from faulttree.core.calc.sums import Given, Input, Sum
from faulttree.core.calc.typed import complete, read_input
from faulttree.core.reading import ReadingRefused
from faulttree.core.units import UnitSystem


@dataclass(frozen=True, slots=True)
class Asking:
    """How far the inputs of a sum have been given.

    Attributes:
        sum: which one.
        system: which unit a number without one has.
        given: what was given so far.
        passed: names of inputs that were asked for, in order; one of several amounts more than
            once.
    """

    sum: Sum
    system: UnitSystem
    given: Given = field(default_factory=dict)
    passed: tuple[str, ...] = ()

    @property
    def asked(self) -> Input | None:
        """The input to ask for now; None when all have been."""
        last = self.passed[-1] if self.passed else ""
        for each in self.sum.inputs:
            more = each.many and each.name == last and each.name in self.given
            if (more and not self._is_ended(each)) or self._is_open(each):
                return each
        return None

    def _is_open(self, each: Input) -> bool:
        count, names = self.sum.choose
        is_chosen = each.name in names and sum(name in self.given for name in names) >= count
        return each.name not in self.passed and not is_chosen and each.unless not in self.given

    def _is_ended(self, each: Input) -> bool:
        """True once an input that may be given again was passed over."""
        return self.passed.count(each.name) > len(self.given.get(each.name, ()))

    def may_pass(self, each: Input) -> bool:
        """True when an input may be left out."""
        return not self.sum.is_needed(each) or (each.many and each.name in self.given)

    def prompt(self, each: Input) -> str:
        """What to type for an input, in one line."""
        unit = "" if each.unit_needed else bare_unit(each.kind, self.system)
        bracket = f" [{unit}]" if unit else ""
        if each.many and each.name in self.given:
            return f"{each.name} {len(self.given[each.name]) + 1}{bracket}; Enter ends"
        usual = f"; Enter: {each.default}" if each.default else ""
        if each.kind is Kind.WORD:
            return f"{each.name}: {', '.join(each.choices)}{usual}"
        leave = "; Enter leaves it out" if self.may_pass(each) and not each.default else ""
        return f"{each.name}{bracket}: {each.words}, as {each.example}{usual}{leave}"

    def take(self, text: str) -> "Asking":
        """Go on with what was typed; nothing leaves the input out.

        Raises:
            ReadingRefused: it is no value of the input asked for, or it is needed.
        """
        each = self.asked
        assert each is not None
        if not text.strip():
            if not self.may_pass(each):
                raise ReadingRefused(f"{each.name} is needed; type {each.example}.")
            return replace(self, passed=(*self.passed, each.name))
        amount = read_input(each, text, self.system)
        return replace(
            self, given=_with(self.given, each.name, amount), passed=(*self.passed, each.name)
        )

    def back(self) -> "Asking":
        """The input before, asked for again."""
        if not self.passed:
            return self
        last, before = self.passed[-1], self.passed[:-1]
        kept = before.count(last)
        amounts = self.given.get(last, ())[:kept]
        rest = {name: value for name, value in self.given.items() if name != last}
        return replace(self, given={**rest, last: amounts} if amounts else rest, passed=before)

    @property
    def is_complete(self) -> bool:
        """True when the sum can be done with what was given."""
        return not self.sum.lacking(self.given)

    def answered(self) -> Answered:
        """The sum as far as it stands, with defaults for what was not asked yet.

        Raises:
            SumRefused: it cannot be done.
        """
        return answered(self.sum, complete(self.sum, self.given, self.system))


def _with(given: Given, name: str, amount: Amount) -> Mapping[str, tuple[Amount, ...]]:
    return {**given, name: (*given.get(name, ()), amount)}
