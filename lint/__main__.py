"""python -m lint"""

from __future__ import annotations

import gc
import os
import sys


def main() -> None:
    """Run the command line."""
    # One drawing goes to each processor: threads within would only be in one another's way, and their stacks count.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    gc.disable()  # what is loaded stays: there is nothing to collect before the command runs
    try:
        from lint.commands import grille_lint

        grille_lint()
    except KeyboardInterrupt:
        sys.exit(130)


if __name__ == "__main__":
    main()
