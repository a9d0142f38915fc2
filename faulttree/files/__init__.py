"""The code that opens files and reads the clock and the environment."""
