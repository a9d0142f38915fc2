"""Suspects along the circuit: each lies in one stretch, or is told aside."""

from dataclasses import replace

import pytest
from benches import TREES, opened

from faulttree.core.bench.suspects import suspects_of
from faulttree.core.circuit.circuit import Circuit
from faulttree.core.suspects.along import Layout
from faulttree.core.suspects.ranking import Ranked, Suspicion
from faulttree.core.suspects.shares import Standing


def _suspicion(name: str, share_of: dict[str, float]) -> Suspicion:
    """All suspects of a tree; those that are not named are cleared."""
    suspects = suspects_of(opened(name).circuit.document, opened(name).sheet.document)
    weight = sum(s.weight for s in suspects)
    ranked = (Ranked(s, share_of.get(s.id, 0.0), 0.0, s.weight / weight, ()) for s in suspects)
    return Suspicion((), tuple(ranked), 0.0, 0.0)


def _layout(name: str) -> Layout:
    found = opened(name)
    model, sheet = found.circuit.document, found.sheet.document
    return Layout(Circuit.from_document(model), sheet, suspects_of(model, sheet))


@pytest.mark.parametrize("name", TREES)
def test_every_suspect_is_told_once(name):
    suspicion = _suspicion(name, {})
    along = _layout(name).with_shares(
        replace(suspicion, ranked=tuple(replace(r, share=r.prior) for r in suspicion.ranked))
    )
    told = sum(reach.share.prior for strand in along.strands for reach in strand)
    aside = sum(r.prior for r in suspicion.ranked if r.suspect.id in along.aside)
    assert told + aside == pytest.approx(1.0)


@pytest.mark.parametrize("name", TREES)
def test_what_lies_on_no_wire_is_told_aside(name):
    model, sheet = opened(name).circuit.document, opened(name).sheet.document
    situations = set(sheet.situations)
    for each in _layout(name).with_shares(_suspicion(name, {})).aside:
        element = each.partition(".")[0]
        assert element in {"battery", "shorts", "loop"} | situations, each
    assert "battery" in model.elements


@pytest.mark.parametrize(
    ("fault", "start", "end"),
    [
        ("relay.coil-open", "relay-coil-feed", "relay-coil-ground"),
        ("relay.main-make-series", "relay-supply", "relay-out"),
        ("speed-switch.high-series", "switch-h-pin", "switch-common-pin"),
        ("speed-switch.low-series", "switch-1-pin", "switch-g"),
        ("pack.thermal-fuse-open", "pack-top-tail", "pack-link-out"),
        ("pack.r2-open", "pack-b-tail", "pack-c-tail"),
        ("feed-wire.short-to-ground", "fuse-motor-side", "blower-feed-wire"),
        ("motor.brushes", "blower-feed", "blower-return"),
    ],
)
def test_a_fault_lies_in_the_stretch_of_its_own_branch(fault, start, end):
    along = _layout("blower-some-speeds").with_shares(
        _suspicion("blower-some-speeds", {fault: 0.7})
    )
    reaches = [reach for strand in along.strands for reach in strand]
    (likely,) = [r for r in reaches if r.share.standing is Standing.LIKELY]
    assert (likely.start, likely.end) == (start, end)
    assert fault.partition(".")[0] in likely.elements
    rest = [r for r in reaches if r is not likely and r.elements]
    assert all(r.share.standing is Standing.CLEARED for r in rest)
