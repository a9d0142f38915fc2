"""Small parts of screens."""
