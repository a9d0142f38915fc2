"""The best order as data: docs/order.md describes the keys. Minutes, and shares from 0 to 1."""

import math
from typing import Any

from faulttree.core.advice.compared import Loss
from faulttree.core.advice.outcomes import Telling
from faulttree.core.order.plan import Asked, Plan, Range
from faulttree.render.order_result import OrderResult
from faulttree.render.proof_words import own_instruments


def order_json(result: OrderResult) -> dict[str, Any]:
    """All of it."""
    tree, compared = result.bench.tree, result.compared
    access = result.bench.sheet.access
    return {
        "format": "order/1",
        "tree": tree.id,
        "version": tree.version,
        "supply": result.supply,
        "own-instruments": [i.id for i in own_instruments(result.words)],
        "cars": len(compared.tellings.cars),
        "faults": [s.id for s in result.suspects],
        "parts": list(result.parts),
        "tests": [_test(test) for test in compared.tellings.tests],
        "made-ready": [
            {"name": name, "words": each.words, "minutes": each.minutes}
            for name, each in access.items()
        ],
        "as-written": {
            "first": tree.start,
            "expected": compared.tree.expected,
            "worst": compared.tree.worst,
        },
        "best": _best(result),
        "ratio": result.ratio,
        "left-out": _left_out(result),
        "losses": [_loss(loss) for loss in compared.losses],
        "plan": _plan(result, compared.best.plan),
    }


def _test(test: Telling) -> dict[str, Any]:
    return {
        "step": test.step_id,
        "minutes": test.minutes,
        "needs": sorted(test.needs),
        "disturbs": test.disturbs,
    }


def _best(result: OrderResult) -> dict[str, Any]:
    best, wrong = result.compared.best, result.compared.wrong
    gap = best.expected.gap
    return {
        "first": best.plan.test if isinstance(best.plan, Asked) else None,
        "expected": best.expected.most if wrong is None else best.spent.expected,
        "worst": best.spent.worst,
        "proven": best.expected.is_proven,
        "no-order-below": best.expected.least,
        "gap": gap if math.isfinite(gap) else None,
        "ends-wrong": wrong,
        "with-wrong-ends": None if wrong is None else best.expected.most,
    }


def _left_out(result: OrderResult) -> dict[str, list[str]]:
    aside = result.aside
    return {
        "open-for-too-many": list(result.compared.best.left_out),
        "tell-nothing-apart": list(aside.idle),
        "complaint-away": list(aside.away),
        "circuit-cannot-answer": list(aside.unanswered),
        "sums": list(aside.sums),
    }


def _loss(loss: Loss) -> dict[str, Any]:
    return {
        "step": loss.step_id,
        "share": loss.share,
        "better": loss.better,
        "lost": _range(loss.regret),
    }


def _range(minutes: Range) -> dict[str, float]:
    return {"least": minutes.least, "most": minutes.most}


def _plan(result: OrderResult, plan: Plan) -> dict[str, Any]:
    share = result.share(plan)
    if isinstance(plan, Asked):
        return {
            "step": plan.test,
            "made-ready": list(plan.set_up),
            "minutes": plan.minutes,
            "expected": plan.expected,
            "share": share,
            "go": [{"outcome": name, **_plan(result, after)} for name, after in plan.go.items()],
        }
    return {
        "share": share,
        "parts": list(result.left(plan)),
        "verdict": result.ends.verdict(plan),
        "cars": [_car(result, name, part) for name, part in plan.suspects.items()],
    }


def _car(result: OrderResult, name: str, part: float) -> dict[str, Any]:
    row = result.ends.car(name)
    assert row.suspect is not None
    return {"fault": row.suspect.id, "severity": row.form.words or None, "of-it": part}
