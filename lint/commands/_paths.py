"""Which drawings a call means: files, folders, standard input."""

from __future__ import annotations

import os
import stat
import sys
from pathlib import Path

from lint.errors import UnreadableDrawing

ENDINGS = (".svg", ".svgz")
MARKED = ".marked.svg"  # what a marked-up copy is called: it is no drawing of its own
_MOST = 20 * 1024 * 1024


def drawings_in(paths: tuple[str, ...]) -> list[str]:
    """The drawings that the call names, folders opened (hidden ones and marked-up copies passed by), each once."""
    found: dict[str, None] = {}
    for path in paths:
        if path != "-" and os.path.isdir(path):
            found.update(dict.fromkeys(_inside(path)))
        elif not path.lower().endswith(MARKED) or len(paths) == 1:
            found[path] = None
    return list(found)


def _inside(folder: str) -> list[str]:
    inside = []
    for at, folders, names in os.walk(folder):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        inside += [
            os.path.join(at, name)
            for name in sorted(names)
            if name.lower().endswith(ENDINGS) and not name.lower().endswith(MARKED) and not name.startswith(".")
        ]
    return inside


def standard_input() -> bytes | None:
    """What is on standard input, up to just over the limit; None where it cannot be read."""
    try:
        return sys.stdin.buffer.read(_MOST + 1) if sys.stdin else None
    except (OSError, ValueError):
        return None


def read_drawing(path: str, given: bytes | None = None) -> bytes:
    """The bytes of a drawing, 20 MB at most; of "-", what was `given` on standard input. Raises UnreadableDrawing
    with a sentence: no file, no ordinary file, too large, not to be read."""
    if path == "-":
        data = standard_input() if given is None else given
        if data is None:
            raise UnreadableDrawing("Standard input is closed or cannot be read.")
        return _within(data)
    try:
        state = os.stat(path)
        if stat.S_ISDIR(state.st_mode):
            raise UnreadableDrawing("This is a folder, not a drawing.")
        if not stat.S_ISREG(state.st_mode):
            raise UnreadableDrawing("This is no ordinary file (a pipe, a device or a socket), so it is not read.")
        with Path(path).open("rb") as file:
            return _within(file.read(_MOST + 1))
    except (OSError, ValueError) as trouble:
        why = trouble.strerror if isinstance(trouble, OSError) else "the name is no file name"
        raise UnreadableDrawing(f"The file cannot be read ({why}).") from trouble


def _within(data: bytes) -> bytes:
    if len(data) > _MOST:
        raise UnreadableDrawing("The file is larger than 20 MB. Take pictures and other pages out of it.")
    return data


def unpacked_size(data: bytes) -> int:
    """How many bytes the drawing has once it is unpacked: what a packed one says of itself in its last four bytes (RFC
    1952, section 2.3.1), 20 MB at most."""
    return min(int.from_bytes(data[-4:], "little"), _MOST) if data[:2] == b"\x1f\x8b" else len(data)
