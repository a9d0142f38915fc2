"""The best order of tests as an indented outline."""

from collections.abc import Iterator

from faulttree.core.advice.as_problem import SWAP
from faulttree.core.order.plan import Asked, End, Plan
from faulttree.render.order_result import OrderResult, asked, ends
from faulttree.render.page import count, wrapped
from faulttree.render.proof_words import percent

_MOST = 40
"""Tests told; those that fewest cars come to are left out."""
_DEEPEST = 16
"""Levels that are indented; further ones stand below each other."""


def outline_lines(result: OrderResult) -> Iterator[str]:
    """Each test with its minutes, its outcomes, and what they leave."""
    plan = result.compared.best.plan
    tests = list(asked(plan))
    yield ""
    if not tests:
        yield "No test is needed."
        return
    yield from wrapped(
        "The best order: each test with its minutes and what has to be made ready for it, its "
        "outcomes with the share of the cars, and what they leave"
    )
    ranked = sorted(range(len(tests)), key=lambda i: (-tests[i].weight, i))
    told = frozenset(id(tests[i]) for i in ranked[:_MOST])
    yield from _Outline(result, told).lines("", plan, 0)
    if len(tests) > len(told):
        left = count(len(tests) - len(told), "test")
        yield from wrapped(f"{left} that few cars come to stand as [...]; --json holds them all.")


class _Outline:
    def __init__(self, result: OrderResult, told: frozenset[int]) -> None:
        self._result, self._told = result, told

    def lines(self, outcome: str, plan: Plan, depth: int) -> Iterator[str]:
        """An outcome with what follows it."""
        indent = "  " * (1 + min(depth, _DEEPEST))
        head = ""
        if outcome:
            share = percent(self._result.share(plan))
            head = f"{self._result.words.text(outcome)}, {share}: "
        if isinstance(plan, End):
            yield from wrapped(f"{head}= {self._left(plan)}", indent, f"{indent}    ")
        elif id(plan) not in self._told:
            yield from wrapped(f"{head}{self._cut(plan)}", indent, f"{indent}    ")
        else:
            yield from wrapped(f"{head}{self._test(plan)}", indent, f"{indent}    ")
            for each, after in plan.go.items():
                yield from self.lines(each, after, depth + 1)

    def _test(self, plan: Asked) -> str:
        words, access = self._result.words, self._result.bench.sheet.access
        if plan.test.startswith(SWAP):
            part = words.text(plan.test.removeprefix(SWAP))
            return f"put in a known good one and see: {part}, {plan.minutes:g} min"
        title = words.title(plan.test)
        ready = ", ".join(words.text(access[name].words) for name in plan.set_up)
        first = f", first {ready}" if ready else ""
        return f"[{plan.test}] {title}, {plan.minutes:g} min{first}"

    def _left(self, end: End) -> str:
        parts = [self._result.words.text(part) for part in self._result.left(end)]
        more = f" ({len(parts)} parts)" if len(parts) > 1 else ""
        return f"{' or '.join(parts)}{more}"

    def _cut(self, plan: Asked) -> str:
        found = {part for end in ends(plan) for part in self._result.left(end)}
        tests = count(len(list(asked(plan))), "test")
        return f"[...] {tests} more, between {count(len(found), 'part')}, {plan.expected:.0f} min"
