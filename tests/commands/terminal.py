"""The command as a user calls it: a process of its own, with what it printed and how it ended."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
FIXTURES = ROOT / "fixtures"
PASSES = FIXTURES / "panel.svg"
FAILS = FIXTURES / "frame-joints" / "no-marks.svg"
CALL = (sys.executable, "-m", "lint")
Done = subprocess.CompletedProcess[str]


def environment(**changes: str) -> dict[str, str]:
    """This process's environment with the package on the path, and `changes`."""
    return {**os.environ, "PYTHONPATH": str(ROOT), **changes}


def call(folder: Path, *words: str | bytes, **options: object) -> Done:
    """`grille-lint` with these words in `folder`; anything that Popen takes may be given too."""
    given: dict[str, object] = {"env": environment(), "input": ""} | options
    return subprocess.run(  # type: ignore[call-overload,no-any-return]
        [*CALL, *words],
        cwd=folder,
        check=False,
        text=True,
        errors="backslashreplace",
        timeout=120,
        stdout=given.pop("stdout", subprocess.PIPE),
        stderr=given.pop("stderr", subprocess.PIPE),
        **given,
    )


def through_shell(folder: Path, line: str) -> Done:
    """A line for bash, where grille-lint stands as "$@"."""
    return subprocess.run(
        ["bash", "-c", line, "bash", *CALL],
        cwd=folder,
        env=environment(),
        check=False,
        text=True,
        capture_output=True,
        timeout=120,
    )


def in_words(done: Done) -> str:
    """What it said; never a traceback."""
    said = f"{done.stdout or ''}{done.stderr or ''}"
    assert "Traceback" not in said
    assert "Exception" not in said
    return said


def copy(source: Path, to: Path) -> Path:
    """A copy of a drawing, folders made."""
    to.parent.mkdir(parents=True, exist_ok=True)
    shutil.copy(source, to)
    return to


def heed_interruptions() -> None:
    """Let the processes started from here heed an interruption, as they do at a terminal: a shell lets those in the
    background ignore it."""
    signal.signal(signal.SIGINT, signal.default_int_handler)
