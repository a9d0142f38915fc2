"""Guided troubleshooting of older cars: trees, measurements, tolerance bands, a written record."""

__version__ = "0.1.0"
