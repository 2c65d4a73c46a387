"""grille-lint patterns PATH --paper a4 --out FILE"""

from __future__ import annotations

from pathlib import Path

import click

from lint.commands._one import Call, failing, judged
from lint.commands._said import refuse
from lint.errors import Refused
from lint.report.files import write_whole
from lint.report.shown import shown
from lint.shop.pattern_page import as_page
from lint.shop.patterns import patterns_of

PAPERS = ("a4", "a3", "letter", "tabloid", "sheet")


def _page_for(call: Call, paper: str) -> str:
    verdict = judged(call)
    if verdict.panel is None:  # judged() has refused it
        raise Refused(verdict.error)
    patterns = patterns_of(verdict.panel, verdict.sheet, path=call.path, paper=paper)
    return as_page(
        patterns,
        paper=paper,
        title=verdict.panel.title,
        path=call.path,
        units=verdict.sheet.units,
        failing=failing(verdict),
    )


@click.command("patterns")
@click.argument("path")
@click.option("--paper", type=click.Choice(PAPERS), default="a4", show_default=True, help="What the printer holds.")
@click.option("--out", metavar="FILE", help="The page to write (HTML). PATH's name with .patterns.html if not given.")
@click.option("--sheet", metavar="SHEET", help="The requirement sheet: a file, or one that comes with the program.")
@click.option("--scale", metavar="SCALE", help='The drawing\'s scale, over what it states: "1:4", "full size".')
def patterns_command(*, path: str, paper: str, out: str | None, sheet: str | None, scale: str | None) -> None:
    """Draw full-size patterns of one drawing: one for each family of scrolls, one of the whole panel.

    PATH is a drawing, or - for standard input. The page has sheets of --paper to join, or one large sheet for each
    pattern (--paper sheet). Print it at 100 %, never "fit to page", and measure the check lengths.
    """
    target = out or ("patterns.html" if path == "-" else f"{Path(path).with_suffix('')}.patterns.html")
    try:
        write_whole(target, _page_for(Call(path=path, sheet=sheet, scale=scale), paper), never_over=(path,))
    except Refused as trouble:
        refuse(str(trouble))
    if target != "-":
        click.echo(f'{shown(target)}: written. Print it at 100 % ("actual size") and measure the check lengths.')
