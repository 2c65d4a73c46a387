"""grille-lint approve PATH --by NAME"""

from __future__ import annotations

from datetime import date

import click

from lint.commands._job import Wanted, verdict_on
from lint.commands._said import refuse
from lint.errors import Refused
from lint.record.approve import approve
from lint.report.files import write_whole
from lint.sheet.approved import record_path
from lint.shown import plain, shown


@click.command("approve")
@click.argument("path")
@click.option("--by", required=True, metavar="NAME", help="Who approves the drawing.")
@click.option("--on", metavar="DATE", help="The day of the approval, like 2026-11-25 (default: today).")
@click.option("--layer", "names", multiple=True, metavar="NAME=ROLE", help="As for check.")
@click.option("--scale", metavar="SCALE", help="As for check.")
@click.option("--sheet", metavar="NAME", help="As for check.")
def approve_command(
    path: str, by: str, on: str | None, names: tuple[str, ...], scale: str | None, sheet: str | None
) -> None:
    """Write the approval record of a drawing beside it: who, when, and every size that the forged piece must meet.

    Refused while a rule fails and is not waived. A drawing that changed since gets one more revision; the earlier
    ones stay in the record.
    """
    try:
        day = date.fromisoformat(on).isoformat() if on else date.today().isoformat()
    except ValueError:
        refuse(f"{on!r} is no date; write it like 2026-11-25.")
    try:
        if path == "-":
            raise Refused("Standard input has no place for a record beside it; name a file.")
        verdict = verdict_on(path, Wanted(sheet=sheet, names=names, scale=scale))
        record = approve(verdict, by=by, on=day)
        target = record_path(path)
        write_whole(target, record, never_over=[path])
    except Refused as trouble:
        refuse(plain(str(trouble), keep="\n"))
    click.echo(f"{plain(target)}: approved by {shown(by)} on {day}. Keep this file beside the drawing.")
    click.echo("It is a record, not a signature: sign the marked-up drawing (grille-lint check --markup DIR) for that.")
