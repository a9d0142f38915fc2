"""The figures of each refrigerant; made by tests/reference/refrigerant_tables.py."""
