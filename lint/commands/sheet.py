"""grille-lint sheet [WHICH]"""

from __future__ import annotations

import os

import click

from lint.commands._said import refuse
from lint.errors import BadSheet
from lint.report.sheet_words import as_toml
from lint.sheet import bundled, load, sheet_for
from lint.sheet.sheet import Sheet


@click.command("sheet")
@click.argument("which", default=".")
@click.option("--list", "listed", is_flag=True, help="Name the sheets that come with the tool.")
def sheet_command(which: str, listed: bool) -> None:
    """Print the requirement sheet in force for WHICH, with the source of every value.

    WHICH is a drawing, a folder, a sheet's file or the name of one that comes with the tool; the current folder
    if it is left out. What is printed is a sheet in itself: keep it as requirements.toml and change it.
    """
    try:
        if listed:
            for name in bundled():
                click.echo(f"{name:<24}{load(name).title if name == 'two-corner-panel' else _title(name)}")
            click.echo('\nIn requirements.toml: based_on = ["two-corner-panel", "sphere-100-mm"]')
        else:
            click.echo(as_toml(_asked(which)), nl=False)
    except BadSheet as trouble:
        refuse(str(trouble))


def _asked(which: str) -> Sheet:
    if which in bundled() or which.endswith(".toml"):
        return load(which)
    if not os.path.exists(which):
        raise BadSheet((f"{which}: there is no such drawing, folder or sheet (grille-lint sheet --list names some).",))
    return sheet_for(os.path.join(which, "-") if os.path.isdir(which) else which)


def _title(name: str) -> str:
    from lint.sheet.read import read_sheet

    return str(read_sheet(bundled()[name].read_bytes(), name).values["title"])
