"""What is asked of counts and chances before anything is worked out from them."""

from fractions import Fraction

USUAL_CONFIDENCE = 0.95
"""The confidence that is taken where none is named."""


def chance_left(confidence: float) -> Fraction:
    """What a confidence leaves to luck, exactly as written: 0.95 leaves 1/20.

    Raises:
        ValueError: it is not between 0 and 1.
    """
    if not 0 < confidence < 1:
        raise ValueError(f"a confidence lies between 0 and 1, not at {confidence:g}")
    return 1 - Fraction(str(confidence))


def need_rate(rate: float) -> None:
    """Refuse what is no chance per try.

    Raises:
        ValueError: it is not above 0 and at most 1.
    """
    if not 0 < rate <= 1:
        raise ValueError(f"a chance per try lies above 0 and at most at 1, not at {rate:g}")


def need_counts(seen: int, tries: int) -> None:
    """Refuse counts that cannot be.

    Raises:
        ValueError: no try, or seen more often than tried.
    """
    if tries < 1 or not 0 <= seen <= tries:
        raise ValueError(f"{seen} of {tries} is no count: at least one try, seen at most in all")


def need_count(what: str, value: float) -> None:
    """Refuse less than none.

    Args:
        what: the value, as it is called in the sentence.
        value: the value.

    Raises:
        ValueError: it is below 0.
    """
    if not value >= 0:
        raise ValueError(f"{what} must be 0 or more, not {value:g}")


def need_positive(what: str, value: float) -> None:
    """Refuse zero and less.

    Args:
        what: the value, as it is called in the sentence.
        value: the value.

    Raises:
        ValueError: it is not above 0.
    """
    if not value > 0:
        raise ValueError(f"{what} must be above 0, not {value:g}")
