"""`python -m faulttree` is the same as `faulttree`."""

import sys

from faulttree.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
