"""grille-lint stock PATH"""

from __future__ import annotations

import click

from lint.commands._job import Wanted
from lint.commands._one import failing, judged, or_refuse
from lint.errors import Refused
from lint.report.files import write_whole
from lint.shop.as_csv import as_csv
from lint.shop.as_json import as_json
from lint.shop.entries import StockList
from lint.shop.stock import stock_list
from lint.shop.stock_page import as_page
from lint.shop.table import as_text

WRITERS = {"csv": as_csv, "json": as_json, "page": as_page}


def _list_for(path: str, wanted: Wanted) -> StockList:
    verdict = judged(path, wanted)
    if verdict.panel is None:
        raise Refused(verdict.error)
    return stock_list(verdict.panel, verdict.sheet, path=path, failing=failing(verdict))


def _write(files: dict[str, str | None], stock: StockList, path: str) -> None:
    asked = {kind: file for kind, file in files.items() if file}
    if len(set(asked.values())) < len(asked):
        raise Refused("Two lists cannot go to one file: give each a name of its own.")
    for kind, file in asked.items():
        write_whole(file, WRITERS[kind](stock), never_over=(path,))


@click.command("stock")
@click.argument("path")
@click.option("--csv", "csv_file", metavar="FILE", help="Write the list as comma-separated values, lengths in mm.")
@click.option("--json", "json_file", metavar="FILE", help="Write the list as JSON, lengths in mm.")
@click.option("--page", "page_file", metavar="FILE", help="Write a page to print, with a picture of each bar (HTML).")
@click.option(
    "--layer", "names", multiple=True, metavar="NAME=ROLE", help='Read a layer as a role, like "Ebene 2=scrolls".'
)
@click.option("--scale", metavar="SCALE", help='The scale of the drawing, like 1:4 or "full size".')
@click.option("--sheet", metavar="NAME", help="A requirement sheet: a file, or one that comes with the tool.")
def stock_command(
    *,
    path: str,
    csv_file: str | None,
    json_file: str | None,
    page_file: str | None,
    names: tuple[str, ...],
    scale: str | None,
    sheet: str | None,
) -> None:
    """List the stock of one drawing: every bar with its cut length, collars, rivets, screws, the bars to buy.

    PATH is a drawing, or - for standard input. Allowances, collar rule, rivet head and bars on sale come from
    the requirement sheet. A drawing that fails rules gets its list all the same, and the list says so.
    """
    files = {"csv": csv_file, "json": json_file, "page": page_file}
    with or_refuse(path):
        stock = _list_for(path, Wanted(sheet=sheet, names=names, scale=scale))
        _write(files, stock, path)
    if "-" not in files.values():
        click.echo(as_text(stock), nl=False)
