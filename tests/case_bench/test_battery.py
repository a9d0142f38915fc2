"""Which battery voltage of a walk the expected readings are worked out with."""

from builders import Walk, at_feed, lamp_with

from faulttree.case_bench.battery import PostVolts, engines_at, post_volts
from faulttree.core.tree import Engine
from faulttree.core.walk import respond
from faulttree.core.walk.respond import Typed

IDLING = (
    "      engine: stopped\n      load: reverse engaged\n      connector",
    "      engine: idle\n      load: reverse engaged\n      connector",
)
"""The feed of the lamp is read with the engine idling."""


def _measure(walk: Walk, step: str, volts: str, confirmed: bool = False) -> None:
    typed = Typed(volts, walk.clock.now, confirmed)
    walk.take(respond.measure_battery(walk.state, step, typed))


def test_nothing_is_known_before_it_is_measured():
    assert post_volts(Walk().state) == PostVolts()


def test_a_reading_of_the_step_called_battery_voltage_counts():
    assert post_volts(at_feed("12.41").state) == PostVolts(stopped=12.41)


def test_the_last_one_that_stands_counts():
    walk = at_feed("12.41")
    _measure(walk, "feed", "12.30")
    assert post_volts(walk.state) == PostVolts(stopped=12.30)
    walk.change("battery-rest", "12.50")
    assert post_volts(walk.state) == PostVolts(stopped=12.50), "an answer that was changed"
    walk.back()
    assert post_volts(walk.state).stopped != 12.50, "one that was withdrawn"


def test_one_that_no_battery_can_show_does_not_count():
    walk = at_feed("12.41")
    _measure(walk, "feed", "126", confirmed=True)
    assert post_volts(walk.state) == PostVolts(stopped=12.41)


def test_a_reading_on_the_posts_counts_whatever_its_step_is_called():
    tree = lamp_with(("    as: battery-voltage\n", ""))
    assert post_volts(Walk(tree=tree).go("12.41").state) == PostVolts(stopped=12.41)


def test_stopped_and_running_are_kept_apart_and_cranking_is_neither():
    walk = Walk(tree=lamp_with(IDLING)).go("12.41", "glows dim")
    _measure(walk, "feed", "14.10")
    assert post_volts(walk.state) == PostVolts(stopped=12.41, running=14.10)
    cranked = lamp_with(
        ("set-up: {key: out, engine: stopped", "set-up: {key: start, engine: cranking")
    )
    assert post_volts(Walk(tree=cranked).go("10.20").state) == PostVolts()


def test_what_is_lacking_is_told_by_the_engine_of_the_step():
    volts = PostVolts(stopped=12.4)
    assert volts.lacking(frozenset({Engine.STOPPED})) == ""
    assert volts.lacking(frozenset({Engine.CRANKING})) == ""
    assert volts.lacking(frozenset({Engine.IDLE, Engine.STOPPED})) == "running"
    assert PostVolts(running=14.1).lacking(frozenset({Engine.CRANKING})) == "stopped"
    assert list(volts.told(frozenset({Engine.STOPPED}))) == [("stopped", 12.4)]


def test_a_sum_is_done_with_the_engine_of_its_readings():
    tree = lamp_with(IDLING)
    assert engines_at(tree, "feed") == {Engine.IDLE}
    assert engines_at(tree, "feed-drop") == {Engine.IDLE}
    assert engines_at(tree, "lamp-share") == {Engine.STOPPED}
    assert engines_at(tree, "switch-worn") == frozenset()
