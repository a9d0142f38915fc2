"""What a case keeps of a logged trace: what was found, and which file it was found in.

The file itself is not kept: it may be hundreds of megabytes. Its size and hash tell it again.
"""

from pydantic import BaseModel, ConfigDict

from faulttree.core.units import Quantity


class TraceSummary(BaseModel):
    """The findings in a trace as they were told; a later version may leave fields at their usual.

    Attributes:
        file: name of the file.
        sha256, size: hash and length of what was read [bytes].
        column, unit, quantity: what was logged.
        samples, recorded_s, step_s: how much, how long [s], how finely [s].
        side, low, high: limits of a dropout, in the unit.
        count, total_s: dropouts, and how long they last together [s].
        per_hour, per_hour_low, per_hour_high: their rate with its 95 % interval.
        told: the findings in sentences, as they were shown.
        listed: the first dropouts, a line each.
    """

    model_config = ConfigDict(frozen=True, extra="ignore", defer_build=True)

    file: str
    sha256: str = ""
    size: int = 0
    column: str = ""
    unit: str = ""
    quantity: Quantity = Quantity.VOLTAGE
    samples: int = 0
    recorded_s: float = 0.0
    step_s: float = 0.0
    side: str = "below"
    low: float = 0.0
    high: float = 0.0
    count: int = 0
    total_s: float = 0.0
    per_hour: float = 0.0
    per_hour_low: float = 0.0
    per_hour_high: float = 0.0
    told: tuple[str, ...] = ()
    listed: tuple[str, ...] = ()
