"""``python -m tracker``: the same as the command ``closein``."""

import sys

from tracker.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
