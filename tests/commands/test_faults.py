"""Strangers' files, names and machines: a clear sentence and exit status 2, never a traceback, a hang or litter."""

from __future__ import annotations

import json
import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from tests.commands.terminal import CALL, PASSES, call, copy, environment, in_words, through_shell

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="pipes, devices and permissions as Linux has them")
ROOT_USER = hasattr(os, "geteuid") and os.geteuid() == 0


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    copy(PASSES, tmp_path / "good.svg")
    return tmp_path


def as_nobody() -> dict[str, object]:
    """Options of Popen that drop the rights of the superuser, for whom no file is unreadable."""
    return {"user": 65534, "group": 65534, "extra_groups": []} if ROOT_USER else {}


# What is no drawing


def test_a_pipe_and_a_device_are_not_read(folder: Path) -> None:
    os.mkfifo(folder / "pipe.svg")
    done = call(folder, "check", "pipe.svg", "/dev/zero", "good.svg")
    assert done.returncode == 2
    assert in_words(done).count("no ordinary file") == 2
    assert "good.svg: PASS" in done.stdout


def test_links_in_a_ring_and_links_to_nothing_are_named(folder: Path) -> None:
    (folder / "ring.svg").symlink_to("ring.svg")
    (folder / "gone.svg").symlink_to("nothing")
    done = call(folder, "check", ".")
    assert done.returncode == 2
    assert in_words(done).count("The file cannot be read") == 2


def test_a_file_without_the_right_to_read_it_is_named(tmp_path: Path) -> None:
    tmp_path.chmod(0o755)
    for above in tmp_path.parents[:2]:
        above.chmod(above.stat().st_mode | stat.S_IXOTH)
    locked = copy(PASSES, tmp_path / "locked.svg")
    locked.chmod(0)
    try:
        done = call(tmp_path, "check", "locked.svg", **as_nobody())
    except PermissionError:
        pytest.skip("nobody may not run this Python")
    if "No module named" in done.stderr:
        pytest.skip("nobody may not read this Python")
    assert (done.returncode, "Permission denied" in in_words(done)) == (2, True)


@pytest.mark.parametrize("command", ["stock", "patterns", "compare", "approve"])
def test_every_command_names_the_file_that_it_cannot_read(command: str, tmp_path: Path) -> None:
    words = {"compare": ("--measured", "x.csv"), "approve": ("--by", "Quarry Lane Forge")}.get(command, ())
    done = call(tmp_path, command, "gone.svg", *words)
    assert done.returncode == 2
    assert "gone.svg:" in in_words(done)
    assert list(tmp_path.iterdir()) == []


# Where nothing can be written


@pytest.mark.parametrize(
    "words",
    [
        "check good.svg",
        "check good.svg --json -",
        "check good.svg --terse --page -",
        "stock good.svg",
        "rules",
        "rules scale",
        "sheet",
        "--help",
        "start new.svg --size 16x24in",
    ],
)
def test_a_full_disk_behind_standard_output_is_exit_status_2(words: str, folder: Path) -> None:
    done = through_shell(folder, f'"$@" {words} > /dev/full')
    assert done.returncode == 2
    assert in_words(done) == "The report could not be written whole (No space left on device).\n"


@pytest.mark.parametrize("words", ["check good.svg", "check good.svg --json -", "rules pass-through", "stock good.svg"])
def test_a_reader_that_goes_away_is_no_traceback(words: str, folder: Path) -> None:
    done = through_shell(folder, f'"$@" {words} | head -c 1; exit ${{PIPESTATUS[0]}}')
    assert in_words(done) == done.stdout[:1]
    assert done.returncode in (0, 2)  # 0 where all fitted into the pipe before the reader went


def test_closed_standard_streams_are_told_or_done_without(folder: Path) -> None:
    done = through_shell(folder, '"$@" check good.svg >&-')
    assert (done.returncode, done.stderr) == (2, "Standard output is closed, so nothing can be reported.\n")
    assert through_shell(folder, '"$@" check good.svg 2>&-').returncode == 0
    done = through_shell(folder, '"$@" check - <&-')
    assert done.returncode == 2
    assert "Standard input is closed" in in_words(done)
    assert through_shell(folder, '"$@" check good.svg <&- >&- 2>&-').returncode == 2


@pytest.mark.parametrize("option", ["--json", "--sarif", "--page"])
def test_a_result_that_cannot_be_written_is_exit_status_2_and_leaves_nothing(option: str, folder: Path) -> None:
    before = sorted(folder.iterdir())
    for target in ("nowhere/result", "/dev/full", ".", "good.svg", "bad\0name"):
        if "\0" in target:
            continue  # no process can be given such a word
        done = call(folder, "check", "good.svg", option, target)
        assert (done.returncode, done.stdout.startswith("good.svg: PASS")) == (2, True)
        assert in_words(done)
        assert len(done.stderr.splitlines()) == 1
    assert sorted(folder.iterdir()) == before
    assert (folder / "good.svg").read_bytes() == PASSES.read_bytes()


def test_neither_sheet_nor_record_nor_a_second_name_of_a_drawing_is_written_over(folder: Path) -> None:
    (folder / "requirements.toml").write_text('based_on = "two-corner-panel"\n')
    os.link(folder / "good.svg", folder / "other-name")
    assert call(folder, "approve", "good.svg", "--by", "Quarry Lane Forge").returncode == 0
    before = {path: path.read_bytes() for path in folder.iterdir()}
    for target in ("requirements.toml", "good.svg.approval.toml", "other-name"):
        done = call(folder, "check", "good.svg", "--json", target)
        assert (done.returncode, "is being read, and stays as it is" in done.stderr) == (2, True)
    assert {path: path.read_bytes() for path in folder.iterdir()} == before


def test_one_marked_up_copy_that_cannot_be_written_does_not_stop_the_others(folder: Path) -> None:
    for name in ("a.svg", "b.svg"):
        copy(PASSES, folder / name)
    (folder / "marked" / "a.marked.svg").mkdir(parents=True)
    done = call(folder, "check", ".", "--markup", "marked")
    assert (done.returncode, "a.marked.svg: is a folder" in done.stderr) == (2, True)
    assert (folder / "marked" / "b.marked.svg").is_file()
    done = call(folder, "check", ".", "--markup", "a.svg")
    assert "a.svg: is no folder" in done.stderr


def test_two_runs_to_one_result_leave_one_whole_result(folder: Path) -> None:
    runs = [
        subprocess.Popen([*CALL, "check", "good.svg", "--json", "r.json", "--terse"], cwd=folder, env=environment())
        for _ in range(3)
    ]
    assert [run.wait(120) for run in runs] == [0, 0, 0]
    assert len(json.loads((folder / "r.json").read_text())["drawings"]) == 1
    assert sorted(path.name for path in folder.iterdir()) == ["good.svg", "r.json"]


# Names and letters

ODD = ("new\nline.svg", "-dash.svg", "\x1b[31mred.svg", "\u202egvs.elpmis.svg", "a" * 251 + ".svg", "Größe 水.svg")


def test_odd_names_are_read_told_and_written_and_steer_no_terminal(tmp_path: Path) -> None:
    for name in ODD:
        copy(PASSES, tmp_path / "in" / name)
    (tmp_path / "in" / os.fsdecode(b"\xff\xfe.svg")).write_bytes(PASSES.read_bytes())
    done = call(tmp_path, "check", "in", "--markup", "marked", "--sarif", "r.sarif", "--page", "r.html")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.count(": PASS\n") == len(ODD) + 1
    assert all(c.isprintable() or c == "\n" for c in done.stdout)
    assert len(list((tmp_path / "marked").iterdir())) == len(ODD) + 1
    assert json.loads((tmp_path / "r.sarif").read_text())
    assert "\x1b" not in (tmp_path / "r.html").read_text()


@pytest.mark.parametrize(
    "changes",
    [
        {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
        {"PYTHONIOENCODING": "cp1252"},
        {"PYTHONIOENCODING": "ascii:strict"},
    ],
    ids=str,
)
def test_a_terminal_without_the_letters_of_a_name_is_no_fault(changes: dict[str, str], tmp_path: Path) -> None:
    drawing = PASSES.read_text().replace("A panel that passes every rule", "Gitter \u2300 水 für Größe")
    (tmp_path / "good.svg").write_text(drawing, encoding="utf-8")
    done = call(tmp_path, "check", "good.svg", env=environment(**changes))
    assert (done.returncode, done.stderr) == (0, "")
    assert "good.svg: PASS" in in_words(done)


def test_no_home_and_no_environment_are_needed(folder: Path) -> None:
    bare = {"PYTHONPATH": environment()["PYTHONPATH"]}
    assert call(folder, "check", "good.svg", env=bare).returncode == 0
