"""A file is written whole or not at all, and what must stay stays."""

from __future__ import annotations

import os
import signal
import stat
import subprocess
import sys
import time
from pathlib import Path

import pytest

from lint.errors import Refused
from lint.report.files import write_whole


def names(folder: Path) -> list[str]:
    return sorted(os.listdir(folder))


def test_a_file_is_written_and_nothing_beside_it(tmp_path: Path) -> None:
    write_whole(tmp_path / "a.json", "Ø6\n")
    assert (tmp_path / "a.json").read_bytes() == "Ø6\n".encode()
    assert names(tmp_path) == ["a.json"]


def test_a_new_file_has_the_rights_that_the_umask_leaves_and_an_old_one_keeps_its_own(tmp_path: Path) -> None:
    old = os.umask(0o027)
    try:
        write_whole(tmp_path / "new", b"1")
    finally:
        os.umask(old)
    assert stat.S_IMODE((tmp_path / "new").stat().st_mode) == 0o640
    (tmp_path / "new").chmod(0o604)
    write_whole(tmp_path / "new", b"2")
    assert stat.S_IMODE((tmp_path / "new").stat().st_mode) == 0o604


def test_a_drawing_that_is_being_read_is_never_written_over(tmp_path: Path) -> None:
    drawing = tmp_path / "a.svg"
    drawing.write_bytes(b"<svg/>")
    (tmp_path / "link.svg").symlink_to(drawing)
    os.link(drawing, tmp_path / "hard.svg")
    for name in ("a.svg", "link.svg", "hard.svg", "../" + tmp_path.name + "/a.svg"):
        with pytest.raises(Refused, match="is a file that is being read"):
            write_whole(tmp_path / name, b"x", never_over=["-", tmp_path / "gone.svg", drawing])
    assert drawing.read_bytes() == b"<svg/>"


def test_a_link_is_followed_and_stays(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "real" / "out").write_text("old", encoding="utf-8")
    (tmp_path / "link").symlink_to(tmp_path / "real" / "out")
    write_whole(tmp_path / "link", "new")
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "real" / "out").read_text(encoding="utf-8") == "new"
    assert names(tmp_path) == ["link", "real"]


def test_no_pipe_device_or_folder_is_written_to(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "zero").symlink_to("/dev/zero")
    (tmp_path / "to-pipe").symlink_to(tmp_path / "pipe")
    for name in ("pipe", "zero", "to-pipe"):
        with pytest.raises(Refused, match="is no ordinary file"):
            write_whole(tmp_path / name, b"x")
    with pytest.raises(Refused, match="is a folder"):
        write_whole(tmp_path, b"x")


@pytest.mark.parametrize("name", ["none/out.json", "a\x00b", "n" * 300, "a.svg/out.json"])
def test_what_cannot_be_written_is_refused_with_a_sentence(tmp_path: Path, name: str) -> None:
    (tmp_path / "a.svg").touch()
    with pytest.raises(Refused) as trouble:
        write_whole(f"{tmp_path}/{name}", b"x")
    assert str(trouble.value).endswith(").")
    assert "cannot be written" in str(trouble.value)
    assert names(tmp_path) == ["a.svg"]


def test_a_full_disk_leaves_the_old_file_and_no_litter(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "out").write_text("old", encoding="utf-8")

    def full(fd: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(Refused, match="No space left on device"):
        write_whole(tmp_path / "out", b"new")
    assert names(tmp_path) == ["out"]
    assert (tmp_path / "out").read_text(encoding="utf-8") == "old"


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT, signal.SIGHUP])
def test_a_signal_leaves_the_old_file_and_no_litter(tmp_path: Path, number: signal.Signals) -> None:
    (tmp_path / "out").write_text("old", encoding="utf-8")
    waits = (
        "import os, sys, time\n"
        "from lint.report import files\n"
        "def slow(fd):\n    print('writing', flush=True); time.sleep(60)\n"
        "files.os.fsync = slow\n"
        "files.write_whole(sys.argv[1], b'new')\n"
    )
    with subprocess.Popen(
        [sys.executable, "-c", waits, str(tmp_path / "out")], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL
    ) as run:
        assert run.stdout is not None
        assert run.stdout.readline() == b"writing\n"
        assert any(name.endswith(".part") for name in names(tmp_path))
        run.send_signal(number)
        run.wait(30)
    assert names(tmp_path) == ["out"]
    assert (tmp_path / "out").read_text(encoding="utf-8") == "old"


def test_a_reader_never_sees_half_a_file(tmp_path: Path) -> None:
    """The name goes from the old whole to the new whole at once (rename, POSIX.1-2017)."""
    target, sizes = tmp_path / "out", set()
    whole = [b"a" * 200_000, b"b" * 300_000]
    target.write_bytes(whole[0])
    child = os.fork()
    if child == 0:
        for n in range(40):
            write_whole(target, whole[n % 2])
        os._exit(0)
    until = time.monotonic() + 60
    while os.waitpid(child, os.WNOHANG) == (0, 0) and time.monotonic() < until:
        sizes.add(len(target.read_bytes()))
    assert sizes <= {200_000, 300_000}


@pytest.mark.parametrize("name", ["-", "/dev/stdout"])
def test_a_dash_prints(name: str, capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    write_whole(name, "Ø6\n")
    assert capfdbinary.readouterr().out == "Ø6\n".encode()
