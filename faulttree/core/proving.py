"""What a proving run proves."""


def largest_rate(clean_cycles: int, confidence: float = 0.95) -> float:
    """Largest chance per cycle that still fits `clean_cycles` clean cycles in a row.

    A complaint that returned with a greater chance would have shown itself in the run with at
    least the given confidence. Cycles must be alike and independent.

    Args:
        clean_cycles: clean cycles in a row, at least 1.
        confidence: between 0 and 1.

    Returns:
        The rate per cycle, between 0 and 1.

    Raises:
        ValueError: no cycle, or a confidence outside 0 to 1.

    Source: exact binomial bound for no event in n trials, 1 - (1 - confidence)^(1/n); Clopper and
    Pearson, Biometrika 26 (1934), for zero events.
    """
    if clean_cycles < 1 or not 0 < confidence < 1:
        raise ValueError("at least one cycle and a confidence between 0 and 1 are needed")
    return float(1 - (1 - confidence) ** (1 / clean_cycles))
