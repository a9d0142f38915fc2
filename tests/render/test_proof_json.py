"""Proofs as data: strict JSON that agrees with the measures and holds every fault."""

import json
import math

import pytest
from proofs import SWAPPED, Changes, cargo_proof, result

from faulttree.core.proof.measures import measures_of
from faulttree.core.units import Quantity
from faulttree.render.proof_json import SI_UNITS, proofs_json

CLOSE: Changes = (("below: 0.5 V, go: ground-drop", "below: 3.06 V, go: ground-drop"),)


def _data(changes: Changes = (), show: str | None = None):
    text = json.dumps(proofs_json([result(changes)], show), allow_nan=False)
    found = json.loads(text)
    assert found["format"] == "proof/1"
    (tree,) = found["trees"]
    return tree


@pytest.mark.parametrize("changes", [(), SWAPPED, CLOSE], ids=["sound", "swapped", "close"])
def test_the_figures_are_the_measures(changes):
    data, wanted = _data(changes), measures_of(cargo_proof(changes))
    found = data["measures"]
    assert found["fault-detection"] == wanted.detected
    assert found["fault-isolation"] == wanted.isolated
    assert [(e["parts"], e["share"]) for e in found["isolated-to"]] == list(wanted.isolated_to)
    assert found["ambiguity-group-size"] == wanted.group_size
    assert found["wrong-conclusions"] == wanted.wrong
    assert (found["not-detected"], found["not-isolated"]) == (wanted.undetected, wanted.unresolved)
    assert found["minutes"] == {"mean": wanted.mean_minutes, "worst": wanted.worst_minutes}
    assert (found["cars"], found["cars-without-complaint"]) == (wanted.cars, wanted.quiet)
    assert found["isolated-coming-back"] == wanted.returning


def test_a_sound_tree_is_proved_and_a_wrong_one_says_why():
    assert (_data()["proved"], _data()["why-not"]) == (True, [])
    data = _data(SWAPPED)
    assert not data["proved"]
    assert len(data["why-not"]) == 2
    assert data["conclusions"][0]["worth"] == "wrong"
    assert data["conclusions"][0]["faults"] == ["switch.main-open"]


@pytest.mark.parametrize("changes", [(), SWAPPED, CLOSE], ids=["sound", "swapped", "close"])
def test_every_fault_is_there_with_all_its_cars_and_ends(changes):
    data, proof = _data(changes), cargo_proof(changes)
    assert [f["fault"] for f in data["faults"]] == [s.id for s in proof.bench.suspects]
    assert len(data["healthy"]["cars"]) == 3
    for fault, suspect in zip(data["faults"], proof.bench.suspects, strict=True):
        walks = proof.of(suspect)
        ends = {(e.end.conclusion, e.worth.value) for w in walks for e in w.ends}
        assert {(e["conclusion"], e["worth"]) for e in fault["ends"]} == ends
        cars = len(fault["cars"]) + len(fault["cars-without-complaint"])
        assert cars == 3 * len(suspect.forms)
        assert (fault["part"], fault["weight"]) == (suspect.part, suspect.weight)


def test_the_shares_of_a_tree_without_doubt_add_up():
    assert sum(c["share"] for c in _data()["conclusions"]) == pytest.approx(1.0)


def test_an_edge_has_its_distance_and_its_car():
    edge = _data(CLOSE)["edges"][0]
    assert (edge["step"], edge["between"]) == ("plug-loss", ["small", "large"])
    assert (edge["edge"], edge["unit"], edge["within-error"]) == (3.06, "V", True)
    distance = abs(edge["value"] - edge["edge"])
    deviation = edge["limit-of-error"] / math.sqrt(3)
    assert edge["standard-uncertainties"] == pytest.approx(distance / deviation)
    assert (edge["fault"], edge["severity"], edge["supply"]) == ("plug.series", "mild", "weak")


def test_walks_are_there_when_asked_for():
    assert "walks" not in _data()
    (walk,) = _data(show="lamp.open")["walks"]
    assert (walk["fault"], walk["conclusion"], walk["worth"]) == (
        "lamp.open",
        "bulb-burnt",
        "named",
    )
    last = walk["steps"][-1]
    assert last["reading"] == {"low": "OL", "high": "OL", "limit-of-error": 0, "unit": "ohm"}
    assert (last["taken"], last["leads-to"]) == ("broken", "bulb-burnt")
    assert last["may-lie-in"] == ["broken"]
    away = [w for w in _data(show="plug")["walks"] if w["steps"][0]["fault-away"]]
    assert [w["conclusion"] for w in away] == ["no-fault"]
    assert {car["fault-is"] for w in away for car in w["cars"]} == {"coming and going"}


def test_groups_say_what_can_be_told_apart():
    (group,) = _data()["groups"]
    assert (group["group"], group["parts"]) == ("fuse-or-bulb", ["fuse", "bulb"])
    (apart,) = group["told-apart"]
    assert apart == {"parts": ["fuse", "bulb"], "tests": ["switch-feed", "filament"]}


def test_every_quantity_has_its_si_unit():
    assert set(SI_UNITS) == set(Quantity)
