"""Every benchmark in turn: python tests/benchmarks/all.py"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).parent

if __name__ == "__main__":
    for name in ("start_up.py", "readers.py", "growth.py"):
        subprocess.run([sys.executable, str(HERE / name)], check=True)
