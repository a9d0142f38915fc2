"""Refrigerant by weight: what was in, what is in now, what is still to go in; oil not counted."""

from dataclasses import dataclass

RECOVERED_AT_LEAST = 0.95
"""What a recovery machine has to get out of a system within 30 min, as a share. Source: 40 CFR 82
subpart B appendix C (SAE J2788)."""
RIGHT_WITHIN_KG = (0.03, 0.06)
"""How near the label a charge has to be [kg]. Source: US Army TM 5-3805-290-23-1."""
CONVERSION = (0.8, 0.9)
"""Weight of R-134a in a system made for R-12, as a share of the R-12; common practice. Makers'
conversion labels go before it."""
Band = tuple[float, float]
"""Least and most."""


@dataclass(frozen=True, slots=True)
class Balance:
    """The charge of a system; all in kilograms, least and most.

    Attributes:
        was_in: before it was weighed out.
        left: what the recovery left behind, and no vacuum pump took since.
        now: in it now.
        to_add: still to go in up to the label; below zero there is too much.
    """

    was_in: Band
    left: Band
    now: Band
    to_add: Band


def balance(
    label: float, weighed_out: float, weighed_in: float = 0.0, *, evacuated: bool = True
) -> Balance:
    """Balance the charge of a system [kg].

    A recovery takes 95 % or more: between all and 5 % of what was in came out. What stays behind
    goes with the vacuum, or stays in where none was drawn.

    Args:
        label: what the label says.
        weighed_out: what the recovery took, without oil.
        weighed_in: what went in since.
        evacuated: whether the system was evacuated in between.
    """
    was_in = weighed_out, weighed_out / RECOVERED_AT_LEAST
    left = (0.0, 0.0) if evacuated else (0.0, was_in[1] - weighed_out)
    now = left[0] + weighed_in, left[1] + weighed_in
    return Balance(was_in, left, now, (label - now[1], label - now[0]))


def conversion_charge(r12: float) -> Band:
    """Least and most R-134a [kg] for a system that held so much R-12 [kg]: 80 to 90 %."""
    return CONVERSION[0] * r12, CONVERSION[1] * r12
