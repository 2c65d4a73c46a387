"""grille-lint check PATH...: the main job."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial
from types import FrameType

import click

from lint.commands import _job
from lint.commands._job import Checked, Wanted
from lint.commands._outputs import Outputs, write_outputs
from lint.commands._paths import drawings_in, standard_input
from lint.commands._said import complain, refuse
from lint.commands.workers import Lost, work_through
from lint.errors import BadSheet, Refused
from lint.report import terminal
from lint.sheet import find, idle_waivers, load_default, rests_on
from lint.sheet.approved import record_path
from lint.sheet.mapped import with_names
from lint.shown import plain

PASSED, FAILED, TROUBLE = 0, 1, 2
_CURSOR_SHOWN = "\x1b[?25h"
_SHOW_PROGRESS_FROM = 4  # drawings; fewer are done before a bar can be read


@click.command("check")
@click.argument("paths", nargs=-1, required=True, metavar="PATH...")
@click.option("--markup", "markup_dir", metavar="DIR", help="Write a marked-up copy of each drawing into DIR.")
@click.option("--json", "json_file", metavar="FILE", help='Write the results as JSON ("-" prints them).')
@click.option("--sarif", "sarif_file", metavar="FILE", help="Write the results as SARIF 2.1.0.")
@click.option("--page", "page_file", metavar="FILE", help="Write one page for an instructor with many drawings.")
@click.option("--terse", is_flag=True, help="One line for each finding: file:line: result rule: message.")
@click.option(
    "--layer", "names", multiple=True, metavar="NAME=ROLE", help='Read a layer as a role, like "Ebene 2=scrolls".'
)
@click.option("--scale", metavar="SCALE", help='The scale of the drawing, like 1:4 or "full size".')
@click.option("--sheet", metavar="NAME", help="A requirement sheet: a file, or one that comes with the tool.")
@click.option("--approved", is_flag=True, help="Fail a drawing that has no approval record beside it.")
@click.option(
    "--jobs", type=click.IntRange(1, 256), help="How many drawings at a time (default: one for each processor)."
)
@click.option("--date", default="", metavar="TEXT", help="A date for the title block of the marked-up copy.")
@click.option("--watch", is_flag=True, help="Check again whenever a drawing or the sheet is saved.")
def check_command(
    paths: tuple[str, ...],
    markup_dir: str | None,
    json_file: str | None,
    sarif_file: str | None,
    page_file: str | None,
    terse: bool,
    names: tuple[str, ...],
    scale: str | None,
    sheet: str | None,
    approved: bool,
    jobs: int | None,
    date: str,
    watch: bool,
) -> None:
    """Check drawings (files, folders, or "-" for standard input) and say what was measured.

    Exit status: 0 no rule fails; 1 a rule fails; 2 something could not be read or written.
    """
    outputs = Outputs(markup=markup_dir, json=json_file, sarif=sarif_file, page=page_file)
    wanted = Wanted(
        text=not terse and not outputs.prints,
        colour=sys.stdout.isatty() and "NO_COLOR" not in os.environ,
        terse=terse,
        json=bool(json_file or page_file),
        sarif=bool(sarif_file),
        markup=bool(markup_dir or page_file),
        sheet=sheet,
        names=names,
        scale=scale,
        approved=approved,
        date=date,
    )
    signal.signal(signal.SIGTERM, _leave)
    _refuse_wrong_call(outputs, names)
    if watch:
        from lint.commands._watch import watch_drawings

        watch_drawings(paths, partial(_round, paths, outputs, wanted, jobs))
    sys.exit(_round(paths, outputs, wanted, jobs))


def _refuse_wrong_call(outputs: Outputs, names: Sequence[str]) -> None:
    """A wrong call is said at once, not of each drawing."""
    try:
        outputs.refuse_one_file()
        with_names(load_default(), names)
    except Refused as trouble:
        refuse(str(trouble))


def _round(paths: Sequence[str], outputs: Outputs, wanted: Wanted, jobs: int | None) -> int:
    """Check everything once, and give the exit status."""
    found = drawings_in(tuple(paths))
    if not found:
        refuse(f"There is no drawing (.svg, .svgz) in {', '.join(plain(path) for path in paths)}.")
    if "-" in found:
        wanted = replace(wanted, given=standard_input())
    checked: list[Checked] = []
    errors: set[str] = set()
    try:
        for one in _with_progress(_check_all(found, wanted, jobs), len(found), wanted):
            _say(one, errors)
            checked.append(one)
        if wanted.text:
            trap = next((one.trap for one in checked if one.trap), "")
            click.echo(terminal.closing([one.word for one in checked], trap), nl=False)
        troubles = write_outputs(outputs, checked, _inputs(found, wanted))
        sys.stdout.flush()
    except Refused as trouble:
        refuse(str(trouble))
    for sentence in (*_idle_waivers(checked, wanted), *troubles):
        complain(sentence)
    if troubles or any(one.word == "unreadable" or one.error for one in checked):
        return TROUBLE
    return FAILED if any(one.word == "fail" for one in checked) else PASSED


def _check_all(found: Sequence[str], wanted: Wanted, jobs: int | None) -> Iterator[Checked]:
    count = jobs or len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else jobs or os.cpu_count() or 1
    for path, done in zip(found, work_through(partial(_job.do, wanted=wanted), found, count), strict=True):
        yield _job.lost(path, done.why, wanted) if isinstance(done, Lost) else done


def _say(one: Checked, said: set[str]) -> None:
    """Print what one drawing gives, as soon as it is there. An error that was `said` of an earlier one is not
    repeated: it is the sheet's."""
    if one.error and one.error not in said:
        said.add(one.error)
        complain(one.error)
    if one.text:
        click.echo(one.text)
    if one.terse:
        click.echo(one.terse, nl=False)


def _inputs(found: Sequence[str], wanted: Wanted) -> list[str]:
    """The files that are read: drawings, their approval records, and the sheets in force. None is written over."""
    drawings = [path for path in found if path != "-"]
    folders = dict.fromkeys(os.path.dirname(path) or "." for path in found)
    inputs = [*drawings, *(record_path(path) for path in drawings)]
    for sheet in filter(None, {wanted.sheet} if wanted.sheet else {find(folder) for folder in folders}):
        try:
            inputs += rests_on(sheet)
        except BadSheet:
            inputs.append(sheet)
    return inputs


def _idle_waivers(checked: Sequence[Checked], wanted: Wanted) -> tuple[str, ...]:
    """A sentence for each waiver of the sheets in force that did nothing for any drawing that was judged."""
    try:
        return idle_waivers({one.path: one.failing for one in checked if one.word != "unreadable"}, wanted.sheet)
    except BadSheet:  # changed while the drawings were checked: the next check says so
        return ()


def _with_progress(going: Iterator[Checked], many: int, wanted: Wanted) -> Iterator[Checked]:
    """A bar on a terminal where many drawings are checked and their reports go elsewhere."""
    if many < _SHOW_PROGRESS_FROM or not sys.stderr.isatty() or (sys.stdout.isatty() and (wanted.text or wanted.terse)):
        yield from going
        return
    try:
        with click.progressbar(going, length=many, label=f"Checking {many} drawings", file=sys.stderr) as bar:
            yield from bar
    finally:
        click.echo(_CURSOR_SHOWN, nl=False, err=True)  # the bar hides it, and an interruption may come before it ends


def _leave(number: int, _frame: FrameType | None) -> None:
    raise SystemExit(128 + number)
