"""The full-screen interface. It shows the session's question and hands it the answer; the rules
of a walk are in the core."""
