"""What the program's exit codes mean."""

FINE = 0
"""Done, nothing wrong."""
FINDINGS = 1
"""Done, and something is wrong with what was looked at."""
CANNOT_RUN = 2
"""Could not be done: wrong use, or a file that cannot be read."""
