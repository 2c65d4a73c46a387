"""An interruption ends the command at once: exit status 130 or 143, nothing half written, no worker left behind."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.commands.terminal import CALL, PASSES, copy, environment, heed_interruptions

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="signals as Unix has them")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for n in range(80):
        copy(PASSES, tmp_path / "in" / f"gate-{n}.svg")
    return tmp_path


def children(pid: int) -> list[int]:
    """The processes that a process has started (Linux: proc(5))."""
    found = Path(f"/proc/{pid}/task/{pid}/children")
    return [int(word) for word in found.read_text().split()] if found.exists() else []


def alive(pid: int) -> bool:
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    return True


def started(folder: Path, *words: str) -> subprocess.Popen[bytes]:
    """A check of the folder that has printed its first drawing."""
    heed_interruptions()
    run = subprocess.Popen(
        [*CALL, "check", "in", *words],
        cwd=folder,
        env=environment(),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        bufsize=0,
    )
    assert run.stdout is not None
    assert run.stdout.read(1)
    return run


@pytest.mark.parametrize(("number", "status"), [(signal.SIGINT, 130), (signal.SIGTERM, 143)])
def test_a_signal_ends_a_check_without_litter_or_workers(number: signal.Signals, status: int, folder: Path) -> None:
    before = sorted(folder.rglob("*"))
    run = started(folder, "--json", "r.json", "--markup", "marked", "--page", "r.html")
    workers = children(run.pid)
    run.send_signal(number)
    _, complaints = run.communicate(timeout=60)
    assert run.returncode == status
    assert b"Traceback" not in complaints
    assert sorted(folder.rglob("*")) == before
    assert not any(alive(worker) for worker in workers)


@pytest.mark.skipif(sys.platform != "linux", reason="a terminal as Linux has it")
def test_an_interruption_while_a_bar_is_shown_leaves_the_terminal_in_order(folder: Path) -> None:
    import pty

    keyboard, screen = pty.openpty()
    heed_interruptions()
    run = subprocess.Popen(
        [*CALL, "check", "in", "--json", "r.json"],
        cwd=folder,
        env=environment(TERM="xterm"),
        stdin=screen,
        stdout=subprocess.PIPE,
        stderr=screen,
    )
    os.close(screen)
    shown = b""
    until = time.monotonic() + 60
    while b"%" not in shown and time.monotonic() < until:
        shown += os.read(keyboard, 1024)
    run.send_signal(signal.SIGINT)
    run.wait(60)
    try:
        shown += os.read(keyboard, 65_536)
    except OSError:
        pass
    finally:
        os.close(keyboard)
    assert run.returncode == 130
    assert b"Checking 80 drawings" in shown
    assert shown.rfind(b"\x1b[?25h") >= shown.rfind(b"\x1b[?25l")  # the cursor is shown again
    assert not (folder / "r.json").exists()
    if run.stdout is not None:
        run.stdout.close()
