"""How fast the program is, as ratios to baselines timed in the same run: see docs/benchmarks.md."""
