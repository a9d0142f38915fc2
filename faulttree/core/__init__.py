"""Values and pure functions: no file, clock, terminal or environment."""
