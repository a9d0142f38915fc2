"""Two windows on one case, a wide and a narrow one: neither loses what the other recorded."""

from program import Start, state_of


def test_the_second_window_takes_in_what_the_first_recorded(start: Start, case: str):
    wide = start("resume", case, size=(130, 36))
    narrow = start("resume", case, size=(60, 20))
    wide.wait_for("glows dim", "Path")
    narrow.wait_for("glows dim")
    wide.type("3")
    wide.wait_for("Step 3: Feed at the lamp")
    narrow.type("1")
    narrow.wait_for("Another window", "Step 3: Feed at the lamp")
    for program in (wide, narrow):
        program.type("q")
        assert program.wait_for_end() == 0
    outcomes = [getattr(e, "outcome", None) for e in state_of(case).events]
    assert [o for o in outcomes if o] == ["glows dim"]
