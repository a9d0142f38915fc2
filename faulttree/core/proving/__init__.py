"""What counting tells of a complaint that comes and goes, and of a repair of it.

Everything here works on counts, chances from 0 to 1, and times in any one unit. Nothing needs more
than the standard library. What is asked, and where it is answered:

* How often may it show, after k of n tries or k times in T?  `chance_limits`, `rate_limits`
* How many tries until it shows?  `expected_tries`, `tries_to_see`
* How many clean cycles prove that the repair changed something?  `clean_cycles_needed`
* What does a clean run promise, whatever was before?  `largest_rate`
* And with a guess of whether the repair hit?  `chance_repaired`, `clean_cycles_for_belief`
"""

from faulttree.core.proving.before_after import (
    chance_if_unchanged,
    clean_cycles_needed,
    clean_time_needed,
    confidence_after_returns,
)
from faulttree.core.proving.clean_run import (
    RunConvention,
    clean_cycles_for_rate,
    cycles_with_returns,
    largest_rate,
)
from faulttree.core.proving.demands import USUAL_CONFIDENCE
from faulttree.core.proving.guessed import (
    UNIFORM,
    ChancePrior,
    chance_clean_if_missed,
    chance_repaired,
    clean_cycles_for_belief,
)
from faulttree.core.proving.limits import (
    Limits,
    chance_limits,
    count_limits,
    highest_chance,
    highest_count,
    lowest_chance,
    rate_limits,
)
from faulttree.core.proving.seeing import (
    expected_tries,
    tries_to_see,
)

__all__ = [
    "UNIFORM",
    "USUAL_CONFIDENCE",
    "ChancePrior",
    "Limits",
    "RunConvention",
    "chance_clean_if_missed",
    "chance_if_unchanged",
    "chance_limits",
    "chance_repaired",
    "clean_cycles_for_belief",
    "clean_cycles_for_rate",
    "clean_cycles_needed",
    "clean_time_needed",
    "confidence_after_returns",
    "count_limits",
    "cycles_with_returns",
    "expected_tries",
    "highest_chance",
    "highest_count",
    "largest_rate",
    "lowest_chance",
    "rate_limits",
    "tries_to_see",
]
