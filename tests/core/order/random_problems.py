"""Small problems at random, with everything that a problem may have."""

from random import Random

from faulttree.core.order import problem as given


def random_problem(seed: int, suspects: int = 6, tests: int = 5) -> given.Problem:
    """A small problem; which of the harder things it has depends on the seed."""
    rng = Random(seed)
    size = rng.randint(2, suspects)
    faults = rng.randint(1, size) if rng.random() < 0.5 else size
    rows = tuple(
        given.Suspect(f"s{n}", f"f{n % faults}", rng.randint(0 if n else 1, 9), _part(rng))
        for n in range(size)
    )
    set_ups = _set_ups(rng) if rng.random() < 0.5 else ()
    has_open, destroying = rng.random() < 0.4, rng.random() < 0.3
    found = [
        _test(rng, n, size, set_ups, has_open, destroying and rng.random() < 0.4)
        for n in range(rng.randint(1, tests))
    ]
    if rng.random() < 0.3:
        found.append(given.swap("swap", rng.randint(1, 9), rows[0].find, rows))
    return given.Problem(rows, tuple(found), set_ups)


def _part(rng: Random) -> str:
    return rng.choice(["", "", "", "p0", "p1"])


def _set_ups(rng: Random) -> tuple[given.SetUp, ...]:
    key = given.SetUp("key", {"out": 0.5, "run": 1, "start": rng.randint(1, 4)}, "out")
    plug = given.SetUp("plug", {"on": rng.randint(0, 3), "off": rng.randint(1, 8)}, "on")
    return (key, plug) if rng.random() < 0.6 else (plug,)


def _test(
    rng: Random,
    n: int,
    size: int,
    set_ups: tuple[given.SetUp, ...],
    has_open: bool,
    destroys: bool,
) -> given.Test:
    outcomes = ["low", "in", "high"][: rng.choice([2, 2, 3])]
    shows = []
    for _ in range(size):
        several = 2 if has_open and rng.random() < 0.15 else 1
        shows.append(tuple(rng.sample(outcomes, several)))
    needs = {each.name: rng.choice(sorted(each.minutes)) for each in set_ups if rng.random() < 0.5}
    tools = ("meter",) * rng.randint(0, 2)
    minutes = rng.choice([0, 1, 2, 3, 5, 8, 2.5])
    return given.Test(f"t{n}", minutes, tuple(shows), needs, tools, destroys)
