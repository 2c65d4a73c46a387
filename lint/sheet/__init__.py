"""What is asked: the requirement sheet in force for a drawing."""

from __future__ import annotations

import os
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from lint.sheet.read import Stated, read_file, read_sheet
from lint.sheet.sheet import Sheet
from lint.sheet.values import wrong
from lint.sheet.waivers import fitting_nothing
from lint.sheet.whole import whole

DEFAULT = "two-corner-panel"
FILE = "requirements.toml"
_HERE = Path(__file__).parent
_DEEPEST = 8  # sheets built on sheets built on sheets
_MOST = 64  # files in all
_Stamp = tuple[str, int, int]
_kept: dict[str, tuple[tuple[_Stamp, ...], Sheet]] = {}


@cache
def load_default() -> Sheet:
    """The sheet that the package carries."""
    return whole(_chain(DEFAULT, None, ()), None)


@cache
def _with_limit(name: str) -> Sheet:
    """The default sheet with one of the limits that the package carries."""
    return whole((*_chain(DEFAULT, None, ()), *_chain(name, None, ())), None)


def load(path: str) -> Sheet:
    """The sheet in the file at `path`, or the bundled one of that name ("two-corner-panel"), complete.

    BadSheet holds one sentence for each fault of it and of the sheets that it is based on. A file is read
    anew only when it or one of those has changed.
    """
    if path in bundled() and not os.path.exists(path):
        return load_default() if path == DEFAULT else _with_limit(path)
    shown = _shown(path)
    stamps, sheet = _kept.get(os.path.abspath(path), ((), None))
    if sheet is not None and sheet.path == shown and stamps == _stamps(tuple(stamp[0] for stamp in stamps)):
        return sheet
    files = _chain(shown, None, ())
    sheet = whole(files, shown)
    _kept[os.path.abspath(path)] = (_stamps(tuple(file.path for file in files)), sheet)
    return sheet


def sheet_for(drawing_path: str | os.PathLike[str], named: str | None = None) -> Sheet:
    """The sheet for a drawing: the one `named`, if any (a file or a bundled sheet), else the nearest
    requirements.toml in its folder or above, else the default one.

    "-" is a drawing in the current folder. BadSheet as for `load`.
    """
    if named:
        return load(named)
    drawing = os.fspath(drawing_path)
    found = find("." if drawing == "-" else os.path.dirname(drawing) or ".")
    return load(found) if found else load_default()


def idle_waivers(failing: Mapping[str, frozenset[str]], named: str | None = None) -> tuple[str, ...]:
    """A sentence for each waiver that did nothing in a run. `failing` maps the path of each drawing that was
    checked to the rules that fail on it, waived or not; `named` is the sheet that the call names, if any."""
    sheets = {path: sheet_for(path, named) for path in failing}
    said: dict[str, None] = {}
    for sheet in {id(sheet): sheet for sheet in sheets.values()}.values():
        held = {path: rules for path, rules in failing.items() if sheets[path] is sheet}
        said |= dict.fromkeys(fitting_nothing(sheet, held))
    return tuple(said)


def find(folder: str) -> str | None:
    """The nearest requirements.toml in `folder` or above it, or None."""
    at = Path(os.path.abspath(folder))
    return next((str(up / FILE) for up in (at, *at.parents) if (up / FILE).exists()), None)


def rests_on(path: str) -> tuple[str, ...]:
    """The files that the sheet at `path` rests on, itself among them; bundled sheets left out. BadSheet as for
    `load`."""
    return tuple(dict.fromkeys(file.path for file in _chain(_shown(path), None, ()) if file.path not in bundled()))


@cache
def bundled() -> dict[str, Path]:
    """The sheets that the package carries, by name: the default one, and limits of the sphere to build on."""
    return {DEFAULT: _HERE / f"{DEFAULT}.toml"} | {p.stem: p for p in sorted((_HERE / "spheres").glob("*.toml"))}


def _chain(name: str, above: str | None, seen: tuple[str, ...]) -> tuple[Stated, ...]:
    """All files that the sheet rests on, what is based on first. `above` is the sheet that names this one."""
    packed = bundled().get(name) if above or name in bundled() else None
    path = name if packed or above is None else _shown(os.path.join(os.path.dirname(above), name))
    if packed is None and above is not None and not name.endswith(".toml"):
        known = ", ".join(bundled())
        raise wrong(f'{above}: based_on: "{name}" is no sheet (expected a .toml file, or one of: {known}).')
    if path in seen or len(seen) >= _DEEPEST:
        raise wrong(f"{above}: based_on: {' > '.join((*seen, path))} goes round, or nests deeper than {_DEEPEST}.")
    data = packed.read_bytes() if packed else read_file(path)
    first = read_sheet(data, path)
    below: tuple[Stated, ...] = ()
    for base in first.based_on:
        below += _chain(base, path, (*seen, path))
        if len(below) > _MOST:
            raise wrong(f"{path}: based_on: rests on more than {_MOST} files.")
    units = next((file.units for file in reversed(below) if file.units), None)
    own = first if first.units or units in (None, "mm") else read_sheet(data, path, units)
    return (*below, own.nameless if packed and above and name != DEFAULT else own)


def _shown(path: str) -> str:
    """The path as a person would write it from here."""
    full, here = os.path.abspath(path), os.path.abspath(".")
    return os.path.relpath(full, here) if full.startswith(here.rstrip(os.sep) + os.sep) else full


def _stamps(paths: tuple[str, ...]) -> tuple[_Stamp, ...]:
    """When each file was last written, and its size; bundled sheets do not change."""
    stamps = []
    for path in paths:
        try:
            state = os.stat(path) if path not in bundled() else None
        except OSError:
            state = None
        stamps.append((path, state.st_mtime_ns, state.st_size) if state else (path, 0, 0))
    return tuple(stamps)
