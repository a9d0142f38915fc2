"""What the steps of a case would read on its own circuit; start at `readings`."""
