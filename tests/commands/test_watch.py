"""check --watch: the next save is checked, until an interruption."""

from __future__ import annotations

import os
import signal
import subprocess
from pathlib import Path

import pytest

from tests.commands.terminal import CALL, FAILS, PASSES, call, copy, environment, heed_interruptions

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="signals as Unix has them")


def until(run: subprocess.Popen[str], words: str) -> str:
    """What is printed up to a line with these words."""
    assert run.stdout is not None
    said = ""
    for line in run.stdout:
        said += line
        if words in line:
            return said
    raise AssertionError(f"ended before {words!r} came: {said}")


def test_a_saved_drawing_or_sheet_is_checked_again_until_an_interruption(tmp_path: Path) -> None:
    drawing = copy(PASSES, tmp_path / "gate.svg")
    heed_interruptions()
    run = subprocess.Popen(
        [*CALL, "check", ".", "--watch", "--terse"],
        cwd=tmp_path,
        env=environment(PYTHONUNBUFFERED="1"),
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    try:
        assert "fail" not in until(run, "Watching for the next save")
        drawing.write_bytes(FAILS.read_bytes())
        assert "fail frame-joints" in until(run, "Watching for the next save")
        (tmp_path / "requirements.toml").write_text("sphere = 3\n")
        assert "no such key" in until(run, "Watching for the next save")
        (tmp_path / "requirements.toml").unlink()
        drawing.write_bytes(PASSES.read_bytes())
        assert "fail" not in until(run, "Watching for the next save")
        drawing.unlink()
        assert "There is no drawing" in until(run, "Watching for the next save")
        drawing.write_bytes(PASSES.read_bytes())
        assert "fail" not in until(run, "Watching for the next save")
        run.send_signal(signal.SIGINT)
        assert run.wait(60) == 130
    finally:
        run.kill()
        run.communicate()


def test_standard_input_cannot_be_watched(tmp_path: Path) -> None:
    done = call(tmp_path, "check", "-", "--watch")
    assert (done.returncode, "cannot be watched" in done.stderr) == (2, True)
