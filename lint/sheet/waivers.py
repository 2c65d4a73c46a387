"""What may fail, where, and why."""

from __future__ import annotations

import os
from collections.abc import Mapping
from fnmatch import fnmatchcase
from functools import lru_cache

from lint.result import Waiver
from lint.sheet.sheet import Sheet

_MOST_FILES = 20_000  # looked at for a waiver that no checked drawing fits


def waiver_for(sheet: Sheet, path: str, rule: str) -> Waiver | None:
    """The sheet's waiver that covers this rule on this drawing, or None.

    `drawing` is a glob against the path relative to the folder of the sheet that holds the waiver: `*` and `?`
    stay inside one folder, `**` takes any number of them. The first waiver that fits holds; "-" has no path,
    so nothing is waived for it.
    """
    if path == "-":
        return None
    return next((w for w in sheet.waive if w.rule == rule and fits(w, path)), None)


def fits(waiver: Waiver, path: str) -> bool:
    """Whether the waiver's glob names this drawing."""
    folder = os.path.dirname(os.path.abspath(waiver.sheet)) if waiver.sheet else os.getcwd()
    try:
        relative = os.path.relpath(os.path.abspath(path), folder)
    except ValueError:  # another drive
        return False
    return matches(relative.replace(os.sep, "/"), waiver.drawing)


def matches(path: str, glob: str) -> bool:
    """Whether a relative path with / fits the glob; "./" before either is dropped."""
    return _match(tuple(path.removeprefix("./").split("/")), tuple(glob.removeprefix("./").split("/")))


def fitting_nothing(sheet: Sheet, failing: Mapping[str, frozenset[str]]) -> tuple[str, ...]:
    """A sentence for each waiver that does nothing. `failing` maps each checked drawing's path to the rules
    that fail on it, waived or not. A waiver of drawings that were not checked is quiet while one is on disk."""
    said = []
    for waiver in sheet.waive:
        checked = [path for path in failing if path != "-" and fits(waiver, path)]
        where = f'{waiver.sheet}: waive: "{waiver.drawing}", {waiver.rule}'
        if checked and not any(waiver.rule in failing[path] for path in checked):
            said.append(f"{where}: the rule does not fail there; take the waiver out.")
        elif not checked and not _on_disk(waiver):
            said.append(f"{where}: no drawing has this path; mend the path or take the waiver out.")
    return tuple(said)


def _on_disk(waiver: Waiver) -> bool:
    """Whether a file that the waiver names exists; true too where the folder is too large to look through."""
    folder = os.path.dirname(os.path.abspath(waiver.sheet))
    seen = 0
    for at, folders, files in os.walk(folder):
        folders[:] = [name for name in folders if not name.startswith(".")]
        for name in files:
            seen += 1
            if seen > _MOST_FILES:
                return True
            if matches(os.path.relpath(os.path.join(at, name), folder).replace(os.sep, "/"), waiver.drawing):
                return True
    return False


@lru_cache(maxsize=4096)
def _match(path: tuple[str, ...], glob: tuple[str, ...]) -> bool:
    """Folder by folder, by dynamic programming: a hostile row of ** costs no more than path x glob."""
    reached = {0}
    for part in glob:
        if part == "**":
            reached = set(range(min(reached, default=len(path) + 1), len(path) + 1))
        else:
            reached = {at + 1 for at in reached if at < len(path) and fnmatchcase(path[at], part)}
    return len(path) in reached
