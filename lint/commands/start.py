"""grille-lint start FILE --size 16x24in"""

from __future__ import annotations

import re
import sys
from pathlib import Path

import click

from lint.commands._said import refuse
from lint.errors import Refused
from lint.lengths import parse_pair
from lint.report.files import write_whole
from lint.sheet import load, sheet_for
from lint.shop.blank import blank
from lint.shown import plain


@click.command("start")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--size", required=True, help="Outside width and height of the frame, like 16x24in or 400x600mm.")
@click.option("--sheet", "sheet_name", default=None, help="A requirement sheet: a file, or a sheet that comes with it.")
def start_command(file: Path, size: str, sheet_name: str | None) -> None:
    """Write a blank drawing to FILE: true size, every layer in place, and a frame of the sheet's bar.

    Open it in any vector editor, draw your scrolls on the layer of that name, and check it. A file that is
    there already is left alone.
    """
    try:
        sheet = load(sheet_name) if sheet_name else sheet_for(str(file))
        wide, high = parse_pair(size, sheet.units)
        inches = re.search(r"in|\"|”|″|'|’|′", size, re.IGNORECASE) is not None
        page = blank(wide, high, sheet, units="in" if inches else "mm")
        if file.exists():
            raise Refused(f"{file} is there already and is left as it is. Choose another name.")
        write_whole(file, page)
    except (Refused, ValueError) as trouble:
        refuse(str(trouble))
    click.echo(
        f"{plain(str(file))}: a blank panel, {plain(size)} outside, frame of {sheet.stock.frame.width:g} mm bar."
    )
    click.echo(f"Draw on its layers, save it, then: grille-lint check {plain(str(file))}")
    sys.exit(0)
