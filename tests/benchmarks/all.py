"""Every benchmark in turn: python tests/benchmarks/all.py [--readme]

Each prints what it measures, and the rows of a table; `--readme` puts those rows into the README.
"""

from __future__ import annotations

import re
import subprocess
import sys
from datetime import date
from pathlib import Path

HERE = Path(__file__).parent
README = HERE.parents[1] / "README.md"


def rows_of(script: str) -> list[str]:
    """Run one benchmark, show what it prints as it comes, and give the rows of its table."""
    rows = []
    with subprocess.Popen([sys.executable, "-u", str(HERE / script)], stdout=subprocess.PIPE, text=True) as running:
        for line in running.stdout or ():
            print(line, end="", flush=True)
            rows += [line.rstrip("\n")] if line.startswith("| ") else []
    if running.returncode:
        raise SystemExit(f"{script} ended with status {running.returncode}")
    return rows


def write(rows: list[str]) -> None:
    """Put the rows into the README's table of speed."""
    said = (
        f"Measured by `python tests/benchmarks/all.py --readme` on {date.today()} (CPU; ratios say more than seconds):"
    )
    table = "\n".join(
        ("<!-- speed -->", said, "", "| what | figure |", "| --- | --- |", *rows, "<!-- end of speed -->")
    )
    text, count = re.subn(r"(?s)<!-- speed -->.*?<!-- end of speed -->", lambda _: table, README.read_text())
    assert count == 1, "the README has no place for a table of speed"
    README.write_text(text)


if __name__ == "__main__":
    found = [row for script in ("start_up.py", "readers.py", "growth.py") for row in rows_of(script)]
    if "--readme" in sys.argv[1:]:
        write(found)
