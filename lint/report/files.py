"""A file is written whole or not at all."""

from __future__ import annotations

import os
import signal
import stat
import sys
import threading
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from types import FrameType

from lint.errors import Refused
from lint.shown import shown

STDOUT = ("-", "/dev/stdout")
_Path = str | os.PathLike[str]
_O_BINARY = getattr(os, "O_BINARY", 0)  # Windows would turn line ends


def write_whole(path: _Path, data: bytes | str, never_over: Iterable[_Path] = ()) -> None:
    """Put `data` (text as UTF-8) in the file at `path`, whole or not at all; "-" and /dev/stdout print it.

    It is written to a new file in the same folder, which then takes the place of the old one: a crash, a full
    disk or a signal leaves the old file as it was, and nothing beside it. A link is followed, and stays. Refused
    where the target is no ordinary file, is one of `never_over` (the drawings being read), or cannot be written.
    """
    content = data.encode("utf-8") if isinstance(data, str) else data
    name = os.fspath(path)
    if name in STDOUT:
        _print(content)
        return
    try:
        target = os.path.realpath(name)
        mode = _mode_of(target, name, never_over)
        with _signals_raised():
            _replace(target, content, mode)
    except (OSError, ValueError) as trouble:
        raise Refused(f"{shown(name)}: cannot be written ({_reason(trouble, name)}).") from trouble


def _reason(trouble: Exception, name: str) -> str:
    if isinstance(trouble, FileNotFoundError):
        return f"there is no folder {shown(os.path.dirname(name) or '.')}; make it first"
    return (trouble.strerror if isinstance(trouble, OSError) else "") or "the name is no file name"


def _print(content: bytes) -> None:
    sys.stdout.flush()
    out = getattr(sys.stdout, "buffer", None)
    if out is None:
        sys.stdout.write(content.decode("utf-8", "replace"))
    else:
        out.write(content)
    sys.stdout.flush()


def _mode_of(target: str, name: str, never_over: Iterable[_Path]) -> int | None:
    """The permissions of the file that is replaced, None where there is none. Refused where it must stay."""
    try:
        state = os.stat(target)
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(state.st_mode):
        raise Refused(f"{shown(name)}: is a folder; give the name of a file.")
    if not stat.S_ISREG(state.st_mode):
        raise Refused(f"{shown(name)}: is no ordinary file, so it is not written.")
    for kept in never_over:
        with suppress(OSError):
            if os.fspath(kept) != "-" and os.path.samestat(os.stat(kept), state):
                raise Refused(f"{shown(name)}: is a file that is being read, and stays as it is; choose another name.")
    if not os.access(target, os.W_OK):
        raise Refused(f"{shown(name)}: is write-protected, so it is not replaced.")
    return stat.S_IMODE(state.st_mode)


def _replace(target: str, content: bytes, mode: int | None) -> None:
    """Write beside the target, then rename over it. Nothing is left beside it whatever happens."""
    beside = os.path.join(os.path.dirname(target), f".grille-lint-{os.urandom(6).hex()}.part")
    try:
        fd = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL | _O_BINARY, 0o666)
        with open(fd, "wb") as file:
            if mode is not None and hasattr(os, "fchmod"):
                os.fchmod(fd, mode)
            file.write(content)
            file.flush()
            os.fsync(fd)
        os.replace(beside, target)
    except BaseException:
        with suppress(OSError):
            os.unlink(beside)
        raise
    _settle(os.path.dirname(target))


def _settle(folder: str) -> None:
    """Let the new name reach the disk too, where the system can (not on Windows)."""
    with suppress(OSError):
        fd = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(fd)
        finally:
            os.close(fd)


@contextmanager
def _signals_raised() -> Iterator[None]:
    """A signal that would end the process at once raises SystemExit instead, so that litter is removed first."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    numbers = [getattr(signal, name) for name in ("SIGTERM", "SIGHUP", "SIGQUIT") if hasattr(signal, name)]
    ours = [number for number in numbers if signal.getsignal(number) is signal.SIG_DFL]

    def leave(number: int, _frame: FrameType | None) -> None:
        raise SystemExit(128 + number)

    for number in ours:
        signal.signal(number, leave)
    try:
        yield
    finally:
        for number in ours:
            signal.signal(number, signal.SIG_DFL)
