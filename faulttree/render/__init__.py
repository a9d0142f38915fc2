"""Values to text: no file, no terminal, no clock."""
