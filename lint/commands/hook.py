"""What the pre-commit hook runs: python -m lint.commands.hook [OPTION]... CHANGED_FILE..."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterable, Sequence

from lint.errors import BadSheet
from lint.sheet import find, rests_on
from lint.sheet.approved import record_path


def main(arguments: Sequence[str]) -> None:
    """Check the changed drawings, and those that a changed sheet or approval record bears on; the rest of
    `arguments` goes to `check` as it is. Ends with the exit status of `check`, 0 where there is nothing to do."""
    options, changed = _apart(arguments)
    sheets = {os.path.normpath(path) for path in changed if path.lower().endswith(".toml")}
    drawings = dict.fromkeys(os.path.normpath(path) for path in changed if not path.lower().endswith(".toml"))
    if sheets:
        drawings |= dict.fromkeys(path for path in _tracked() if bears_on(sheets, path))
    if not drawings:
        sys.exit(0)
    from lint.commands import grille_lint

    grille_lint(["check", "--terse", *options, "--", *drawings], prog_name="grille-lint")


def bears_on(changed: Iterable[str], drawing: str) -> bool:
    """Whether one of the changed TOML files is the drawing's approval record, the sheet in force for it, or one
    that this sheet is based on. A sheet that cannot be read bears on all drawings below it."""
    whole = os.path.abspath(drawing)
    files = {os.path.abspath(path) for path in changed}
    sheet = find(os.path.dirname(whole))
    return bool(record_path(whole) in files or (sheet and files & _resting(sheet)))


def _resting(sheet: str) -> set[str]:
    try:
        return {os.path.abspath(path) for path in rests_on(sheet)}
    except BadSheet as trouble:
        return {os.path.abspath(sheet), *(os.path.abspath(path) for path in _files_named(trouble))}


def _files_named(trouble: BadSheet) -> set[str]:
    """The files that the sentences of a bad sheet begin with."""
    return {sentence.partition(":")[0] for sentence in trouble.problems}


def _apart(arguments: Sequence[str]) -> tuple[list[str], list[str]]:
    """(options with their values, changed files): an option's value may look like a file."""
    options: list[str] = []
    files: list[str] = []
    value_next = False
    for argument in arguments:
        if value_next or (argument.startswith("-") and argument != "-"):
            value_next = not value_next and argument in ("--sheet", "--layer", "--scale", "--jobs", "--json", "--sarif")
            options.append(argument)
        else:
            files.append(argument)
    return options, files


def _tracked() -> list[str]:
    """The drawings that git keeps, in the current folder and below."""
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--", ":(icase)*.svg", ":(icase)*.svgz"], capture_output=True, check=False
    )
    names = [os.fsdecode(name) for name in listed.stdout.split(b"\0") if name]
    return [name for name in names if not name.lower().endswith(".marked.svg") and os.path.isfile(name)]


if __name__ == "__main__":
    main(sys.argv[1:])
