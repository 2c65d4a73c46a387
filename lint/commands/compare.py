"""grille-lint compare PATH: the forged piece against the approved drawing."""

from __future__ import annotations

import json
import os
import sys
from dataclasses import replace
from pathlib import Path

import click

from lint.commands._job import Wanted, verdict_on
from lint.commands._paths import read_drawing
from lint.commands._said import refuse
from lint.errors import Refused, UnreadableDrawing
from lint.record.measured import measured_results
from lint.record.measuring_sheet import sheet_csv, sheet_page
from lint.record.readings import read_readings
from lint.report import terminal
from lint.report.files import write_whole
from lint.result import Kind, Result
from lint.sheet.approved import Approved, record_path
from lint.shown import plain
from lint.verdict import Verdict


@click.command("compare")
@click.argument("path")
@click.option("--measured", metavar="FILE", help="The measuring sheet, filled in (CSV).")
@click.option("--traced", metavar="FILE", help="A photograph of the forged piece, traced in the editor (SVG).")
@click.option(
    "--measuring-sheet", "to_fill", metavar="FILE", help="Write the sheet to fill in: .csv, or .html to print."
)
@click.option("--picture", metavar="FILE", help="Write the drawing marked up with what was found (SVG).")
@click.option("--json", "json_file", metavar="FILE", help='Write the results as JSON ("-" prints them).')
@click.option("--page", "page_file", metavar="FILE", help="Write the results as a page.")
@click.option("--layer", "names", multiple=True, metavar="NAME=ROLE", help="As for check.")
@click.option("--scale", metavar="SCALE", help="As for check.")
@click.option("--sheet", metavar="NAME", help="As for check.")
def compare_command(
    path: str,
    measured: str | None,
    traced: str | None,
    to_fill: str | None,
    picture: str | None,
    json_file: str | None,
    page_file: str | None,
    names: tuple[str, ...],
    scale: str | None,
    sheet: str | None,
) -> None:
    """Hold the forged piece to the approved drawing PATH: by what was measured, by a traced photograph, or both.

    Exit status: 0 within every limit; 1 something is outside or not measured; 2 something could not be read or
    written.
    """
    if not (measured or traced or to_fill):
        refuse(
            "Say what to compare: --measured FILE, --traced FILE, or --measuring-sheet FILE for the sheet to fill in."
        )
    inputs = [name for name in (path, measured, traced, record_path(path)) if name]
    try:
        verdict, approved = _approved(path, Wanted(sheet=sheet, names=names, scale=scale))
        if to_fill:
            _write_sheet(to_fill, approved, verdict, inputs)
        results = _results(verdict, approved, measured, traced)
        if results:
            _give(replace(verdict, results=results), inputs, path, picture, json_file, page_file)
    except Refused as trouble:
        refuse(plain(str(trouble), keep="\n"))
    sys.exit(1 if any(result.kind is Kind.FAIL for result in results) else 0)


def _approved(path: str, wanted: Wanted) -> tuple[Verdict, Approved]:
    """The verdict on the drawing and its record. Refused where there is none, or the drawing is another one now."""
    verdict = verdict_on(path, wanted)
    approved = verdict.sheet.approved
    if verdict.panel is None:
        raise Refused(f"{path}: {verdict.error}")
    if approved is None:
        raise Refused(
            f"{path}: has no approval record beside it ({os.path.basename(record_path(path))}), and a forged piece is "
            "held to an approved drawing. Approve it first: grille-lint approve DRAWING --by NAME."
        )
    ruling = next(result for result in verdict.results if result.rule == "approval")
    if ruling.kind is Kind.FAIL:
        raise Refused(f"{path}: is no longer the drawing that was approved. {ruling.message} {ruling.remedy}")
    return verdict, approved


def _results(verdict: Verdict, approved: Approved, measured: str | None, traced: str | None) -> tuple[Result, ...]:
    assert verdict.panel is not None
    results: tuple[Result, ...] = ()
    if measured:
        readings = read_readings(measured, approved.last.points, verdict.sheet.units)
        results += measured_results(approved.last.points, readings, verdict.panel, verdict.sheet.units)
    if traced:
        from lint.record.traced import traced_results
        from lint.record.tracing import read_tracing

        try:
            tracing = read_tracing(read_drawing(traced), verdict.sheet)
        except UnreadableDrawing as trouble:
            raise Refused(f"{traced}: {trouble}") from trouble
        results += traced_results(tracing, verdict.panel, verdict.sheet)
    return results


def _write_sheet(to_fill: str, approved: Approved, verdict: Verdict, inputs: list[str]) -> None:
    assert verdict.panel is not None
    units = verdict.sheet.units
    if to_fill.lower().endswith((".html", ".htm")):
        write_whole(to_fill, sheet_page(approved, verdict.panel, units), inputs)
    else:
        write_whole(to_fill, sheet_csv(approved.last.points, units), inputs)
    if to_fill != "-":
        click.echo(f"{plain(to_fill)}: {len(approved.last.points)} points to measure.", err=True)


def _give(
    verdict: Verdict, inputs: list[str], path: str, picture: str | None, json_file: str | None, page_file: str | None
) -> None:
    """Print what was found, and write each output that is asked for."""
    if "-" not in (json_file, page_file):
        click.echo(terminal.compared(verdict), nl=False)
    marked = None
    if picture or page_file:
        from lint.report.markup import markup

        marked = markup(read_drawing(path), verdict)
    if picture and marked is not None:
        write_whole(picture, marked, inputs)
    if not (json_file or page_file):
        return
    from lint.report.as_json import drawing_json, whole_json

    drawing = json.loads(json.dumps(drawing_json(verdict)))
    if json_file:
        write_whole(json_file, whole_json([drawing], [verdict.sheet.name]), inputs)
    if page_file:
        from lint.report.caution import CAUTION
        from lint.report.page import Entry, page

        assert verdict.panel is not None
        entry = Entry(drawing=drawing, title=verdict.panel.title or Path(path).stem, marked=marked)
        rules = [result.rule for result in verdict.results]
        heading = "Forged piece against approved drawing"
        made = page([entry], rules=rules, heading=heading, sheets=[verdict.sheet.name], caution=CAUTION)
        write_whole(page_file, made, inputs)
