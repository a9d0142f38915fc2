"""The command line: one module a command, `main` and the exit codes."""
