"""grille-lint patterns PATH --paper a4 --out FILE"""

from __future__ import annotations

from pathlib import Path

import click

from lint.commands._job import Wanted
from lint.commands._one import failing, judged, or_refuse
from lint.errors import Refused
from lint.report.files import write_whole
from lint.shop.jigs import without_a_former
from lint.shop.pattern_page import as_page
from lint.shop.patterns import patterns_of
from lint.shop.tiling import PAPERS
from lint.shown import shown


def _page(path: str, paper: str, wanted: Wanted) -> str:
    verdict = judged(path, wanted)
    if verdict.panel is None:
        raise Refused(verdict.error)
    patterns = patterns_of(verdict.panel, verdict.sheet, path=path, paper=paper)
    fails = failing(verdict)
    return as_page(
        patterns,
        paper=paper,
        title=verdict.panel.title,
        path=path,
        units=verdict.sheet.units,
        failing=fails,
        left_out=without_a_former(verdict.panel),
    )


@click.command("patterns")
@click.argument("path")
@click.option(
    "--paper", type=click.Choice((*PAPERS, "sheet")), default="a4", show_default=True, help="What the printer holds."
)
@click.option("--out", metavar="FILE", help="The page to write (HTML). PATH's name with .patterns.html if not given.")
@click.option(
    "--layer", "names", multiple=True, metavar="NAME=ROLE", help='Read a layer as a role, like "Ebene 2=scrolls".'
)
@click.option("--scale", metavar="SCALE", help='The scale of the drawing, like 1:4 or "full size".')
@click.option("--sheet", metavar="NAME", help="A requirement sheet: a file, or one that comes with the tool.")
def patterns_command(
    *, path: str, paper: str, out: str | None, names: tuple[str, ...], scale: str | None, sheet: str | None
) -> None:
    """Draw full-size patterns of one drawing: one for each family of scrolls, one of the whole panel.

    PATH is a drawing, or - for standard input. The page has sheets of --paper to join, or one large sheet for each
    pattern (--paper sheet). Print it at 100 %, never "fit to page", and measure the check lengths.
    """
    target = out or ("patterns.html" if path == "-" else f"{Path(path).with_suffix('')}.patterns.html")
    with or_refuse(path):
        page = _page(path, paper, Wanted(sheet=sheet, names=names, scale=scale))
        write_whole(target, page, never_over=(path,))
    if target != "-":
        click.echo(f'{shown(target)}: written. Print it at 100 % ("actual size") and measure the check lengths.')
