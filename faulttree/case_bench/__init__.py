"""What the circuit of a case tells: start at `readings` (what to expect) and `suspects` (what is
left)."""
