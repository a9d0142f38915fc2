"""How long a trace takes: scanned in memory, against a bare pass over its samples; read as CSV."""

import subprocess
import sys
import tempfile
import tracemalloc
from pathlib import Path
from time import perf_counter
from typing import Any

from .child import PROGRAM
from .prepared import Prepared
from .rows import Row, Sample, in_turn, ratio

SAMPLES = 10_000_000
DROPOUTS = 500
_LOW, _HIGH = 11.0, 12.4
_CHUNK = 100_000


def rows(prepared: Prepared, rounds: int) -> list[Row]:
    """Ten million samples: scanned, in how much memory, and as a file from the command line."""
    samples = _samples()
    return [*_scanned(samples, rounds), *_read(samples, prepared)]


def _samples() -> Any:
    """A feed with noise and dropouts, a millisecond apart."""
    import numpy as np

    from faulttree.core.trace.arrays import Samples

    rng = np.random.default_rng(20261125)
    values = 13.8 + 0.02 * rng.standard_normal(SAMPLES)
    for begin in rng.integers(0, SAMPLES - 300, DROPOUTS).tolist():
        values[begin : begin + int(rng.integers(1, 300))] = 0.2
    return Samples(np.arange(SAMPLES) / 1000, values, np.zeros(1, np.intp))


def _scan(samples: Any) -> Any:
    from faulttree.core.trace.limits import Counting, Limits, Sampling
    from faulttree.core.trace.scan import Scanner

    counting = Counting(merge_s=0.01, shortest_s=0.002)
    scanner = Scanner(Limits(_LOW, _HIGH), counting, Sampling(0.001, 0.0025, 0.001))
    scanner.scan(samples)
    return scanner.found()


def _scanned(samples: Any, rounds: int) -> list[Row]:
    import numpy as np

    bare, ours = in_turn(
        rounds,
        _timed(lambda: np.count_nonzero(samples.values < _LOW)),
        _timed(lambda: _scan(samples)),
    )
    tracemalloc.start()
    _scan(samples)
    more = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    held = samples.times.nbytes + samples.values.nbytes
    what = f"trace, {SAMPLES:,} samples"
    detail = f"{more / 1e6:.1f} MB beside {held / 1e6:.0f} MB"
    return [
        ratio(f"{what}, scanned", "one numpy pass", ours, bare, 5.0),
        Row(f"{what}, memory", "the samples", (held + more) / held, 3.0, detail=detail),
    ]


def _read(samples: Any, prepared: Prepared) -> list[Row]:
    """The whole command; the file is made first."""
    with tempfile.TemporaryDirectory(prefix="faulttree-trace-") as folder:
        path = Path(folder) / "trace.csv"
        _write(path, samples)
        began = perf_counter()
        done = subprocess.run(
            [sys.executable, *PROGRAM, "trace", str(path), "--low", str(_LOW)],
            env=prepared.environment,
            capture_output=True,
            check=True,
        )
        seconds = perf_counter() - began
        assert b"dropouts" in done.stdout
        megabytes = path.stat().st_size / 1e6
    what = f"trace, {SAMPLES:,} samples, from a CSV file, both passes"
    return [Row(what, "", seconds, 10, "s", f"{megabytes:.0f} MB")]


def _write(path: Path, samples: Any) -> None:
    with path.open("w", encoding="ascii") as file:
        file.write("t_s,volts\n")
        for at in range(0, SAMPLES, _CHUNK):
            times = samples.times[at : at + _CHUNK].tolist()
            values = samples.values[at : at + _CHUNK].tolist()
            pairs = zip(times, values, strict=True)
            file.write("".join(f"{time:.3f},{value:.3f}\n" for time, value in pairs))


def _timed(work: Any) -> Sample:
    def sample() -> float:
        began = perf_counter()
        work()
        return perf_counter() - began

    return sample
