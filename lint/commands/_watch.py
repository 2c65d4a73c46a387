"""Check again whenever a drawing or its sheet is saved, so that editor and mark-up can stand side by side."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable, Sequence

import click

from lint.commands._paths import drawings_in
from lint.sheet import bundled, find

_EVERY = 0.5  # seconds between looks: a person saving a file does not notice less
_SETTLED = 0.2  # seconds that a file must lie still, for editors write in several steps
_Stamps = dict[str, tuple[int, int]]


def watch_drawings(paths: Sequence[str], check: Callable[[], int]) -> None:
    """Call `check` now and after each save, until interrupted (then exit status 130, as for any command)."""
    if "-" in paths:
        click.echo("Standard input cannot be watched; name a file or a folder.", err=True)
        sys.exit(2)
    while True:
        before = _stamps(paths)
        _once(check)
        click.echo("Watching for the next save; Ctrl-C ends it.", err=True)
        while (now := _stamps(paths)) == before or not _lies_still(now, paths):
            time.sleep(_EVERY)


def _once(check: Callable[[], int]) -> None:
    try:
        check()
    except SystemExit as end:
        if isinstance(end.code, int) and end.code > 2:  # a signal: watching ends too
            raise


def _stamps(paths: Sequence[str]) -> _Stamps:
    drawings = drawings_in(tuple(paths))
    sheets = {found for path in drawings if (found := find(os.path.dirname(path) or ".")) and found not in bundled()}
    stamps: _Stamps = {}
    for path in (*drawings, *sheets):
        try:
            state = os.stat(path)
        except OSError:
            continue
        stamps[path] = (state.st_mtime_ns, state.st_size)
    return stamps


def _lies_still(stamps: _Stamps, paths: Sequence[str]) -> bool:
    time.sleep(_SETTLED)
    return _stamps(paths) == stamps
