"""Refrigerants: what their pressures, temperatures, densities and enthalpies are."""
