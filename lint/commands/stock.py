"""grille-lint stock PATH"""

from __future__ import annotations

import click

from lint.commands._one import Call, failing, judged
from lint.commands._said import refuse
from lint.errors import Refused
from lint.report.files import write_whole
from lint.shop.as_csv import as_csv
from lint.shop.as_json import as_json
from lint.shop.entries import StockList
from lint.shop.stock import stock_list
from lint.shop.stock_page import as_page
from lint.shop.table import as_text

WRITERS = {"csv": as_csv, "json": as_json, "page": as_page}


def _list_for(call: Call) -> StockList:
    verdict = judged(call)
    if verdict.panel is None:  # judged() has refused it
        raise Refused(verdict.error)
    return stock_list(verdict.panel, verdict.sheet, path=call.path, failing=failing(verdict))


@click.command("stock")
@click.argument("path")
@click.option("--csv", "csv_file", metavar="FILE", help="Write the list as comma-separated values, lengths in mm.")
@click.option("--json", "json_file", metavar="FILE", help="Write the list as JSON, lengths in mm.")
@click.option("--page", "page_file", metavar="FILE", help="Write a page to print, with a picture of each bar (HTML).")
@click.option("--sheet", metavar="SHEET", help="The requirement sheet: a file, or one that comes with the program.")
@click.option("--scale", metavar="SCALE", help='The drawing\'s scale, over what it states: "1:4", "full size".')
def stock_command(
    *,
    path: str,
    csv_file: str | None,
    json_file: str | None,
    page_file: str | None,
    sheet: str | None,
    scale: str | None,
) -> None:
    """List the stock of one drawing: every bar with its cut length, collars, rivets, screws, the bars to buy.

    PATH is a drawing, or - for standard input. Allowances, collar rule, rivet head and bars on sale come from
    the requirement sheet. A drawing that fails rules gets its list all the same, and the list says so.
    """
    try:
        stock = _list_for(Call(path=path, sheet=sheet, scale=scale))
        files = {"csv": csv_file, "json": json_file, "page": page_file}
        for kind, file in files.items():
            if file:
                write_whole(file, WRITERS[kind](stock), never_over=(path,))
    except Refused as trouble:
        refuse(str(trouble))
    if "-" not in files.values():
        click.echo(as_text(stock), nl=False)
