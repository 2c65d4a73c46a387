"""What is done with one drawing, in a worker: read it, judge it, and make every output that is asked for."""

from __future__ import annotations

import os
import traceback
from dataclasses import dataclass, replace
from typing import Any

from lint.check import check
from lint.commands._paths import read_drawing, unpacked_size
from lint.commands.workers import allow_for
from lint.errors import BadRecord, BadSheet, Refused, UnreadableDrawing
from lint.result import Kind
from lint.sheet import load, load_default, sheet_for
from lint.sheet.approved import approved_for
from lint.sheet.mapped import with_names
from lint.sheet.sheet import Sheet
from lint.shown import plain
from lint.verdict import Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What the call asks for: outputs, and what it says of scale, sheet and names."""

    text: bool = True
    colour: bool = False
    terse: bool = False
    json: bool = False
    sarif: bool = False
    markup: bool = False
    sheet: str | None = None
    names: tuple[str, ...] = ()
    scale: str | None = None
    approved: bool = False
    date: str = ""
    given: bytes | None = None  # what was on standard input, where that is one of the drawings


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """What came of one drawing, ready to be written: plain text and bytes, no geometry.

    `failing` are the rules that fail, waived or not. `trap` says that an opening lies in the band of the
    playground rules. `error` is a sentence where a thing could not be done at all (of a requirement sheet, the same
    one for each drawing that it is in force for).
    """

    path: str
    word: str
    text: str = ""
    terse: str = ""
    title: str = ""
    json: dict[str, Any] | None = None
    sarif: Any = None
    marked: bytes | None = None
    failing: frozenset[str] = frozenset()
    sheet: str = ""
    trap: str = ""
    error: str = ""


def sheet_in_force(path: str, wanted: Wanted) -> Sheet:
    """The sheet for this drawing, with what the call adds to it. Raises BadSheet."""
    sheet = load(wanted.sheet) if wanted.sheet else sheet_for(path)
    sheet = with_names(sheet, wanted.names)
    if wanted.approved:
        sheet = replace(sheet, approval=replace(sheet.approval, required=True))
    return sheet


def do(path: str, wanted: Wanted) -> Checked:
    """Check one drawing. Never raises: what goes wrong is said in what it gives back."""
    data = b""
    try:
        sheet = sheet_in_force(path, wanted)
    except BadSheet as trouble:
        return _without_sheet(path, trouble, wanted)
    try:
        data = read_drawing(path, wanted.given)
        allow_for(unpacked_size(data))
        verdict = check(data, _with_record(sheet, path), path=path, scale=wanted.scale)
    except UnreadableDrawing as trouble:
        verdict = _unread(path, sheet, str(trouble), trouble.line)
    except BadRecord as trouble:
        verdict = _unread(path, sheet, str(trouble), None)
    except MemoryError:
        raise
    except Exception as trouble:
        if "bad_alloc" in str(trouble) or "could not allocate" in str(trouble):  # as the geometry engine has it
            raise MemoryError from trouble
        verdict = _unread(path, sheet, _own_fault(), None)
    allow_for(unpacked_size(data))  # a marked-up copy has as much time again: it is asked for
    return made(verdict, data, wanted)


def lost(path: str, why: str, wanted: Wanted) -> Checked:
    """A drawing whose worker died over it."""
    try:
        sheet = sheet_in_force(path, wanted)
    except BadSheet as trouble:
        return _without_sheet(path, trouble, wanted)
    return made(_unread(path, sheet, why, None), b"", wanted)


def _without_sheet(path: str, trouble: BadSheet, wanted: Wanted) -> Checked:
    """A drawing that no sheet can be held to: its outputs say what is wrong with the sheet; to a reader of the
    report, who has many drawings under one sheet, that is said once, as the error."""
    from hashlib import sha256

    sentence = "Its requirement sheet is wrong, so nothing in it was judged."
    nothing = replace(load_default(), name="", digest=sha256().hexdigest())  # an empty sheet: nothing is asked
    verdict = _unread(path, nothing, f"{sentence} {' '.join(trouble.problems)}", None)
    checked = replace(made(verdict, b"", wanted), error=str(trouble))
    if wanted.text:
        from lint.report.terminal import one_drawing

        checked = replace(checked, text=one_drawing(replace(verdict, error=sentence), colour=wanted.colour))
    return checked


def made(verdict: Verdict, data: bytes, wanted: Wanted) -> Checked:
    """Every output that is asked for of one verdict."""
    from lint.report import terminal
    from lint.report.caution import entrapment

    json: dict[str, Any] | None = None
    sarif: Any = None
    if wanted.json:
        from lint.report.as_json import drawing_json

        json = drawing_json(verdict)
    if wanted.sarif:
        from lint.report.sarif import sarif_results

        sarif = sarif_results(verdict)
    marked, error = _marked(verdict, data, wanted)
    return Checked(
        path=verdict.path,
        word=verdict.word,
        text=terminal.one_drawing(verdict, colour=wanted.colour) if wanted.text else "",
        terse=terminal.terse((verdict,)) if wanted.terse else "",
        title=verdict.panel.title if verdict.panel else "",
        json=json,
        sarif=sarif,
        marked=marked,
        failing=frozenset(r.rule for r in verdict.results if r.kind is Kind.FAIL),
        sheet=verdict.sheet.name,
        trap=entrapment((verdict,)),
        error=error,
    )


def _marked(verdict: Verdict, data: bytes, wanted: Wanted) -> tuple[bytes | None, str]:
    if not wanted.markup or verdict.panel is None:
        return None, ""
    from lint.report.markup import markup

    try:
        return markup(data, verdict, date=wanted.date), ""
    except Refused as trouble:
        return None, f"{plain(verdict.path)}: no marked-up copy: {trouble}"
    except MemoryError:
        return None, f"{plain(verdict.path)}: no marked-up copy: it needs more memory than a drawing may have."
    except Exception:
        return None, f"{plain(verdict.path)}: no marked-up copy: {_own_fault()}"


def _unread(path: str, sheet: Sheet, sentence: str, line: int | None) -> Verdict:
    return Verdict(path=path, sheet=sheet, panel=None, results=(), error=sentence, line=line)


def verdict_on(path: str, wanted: Wanted) -> Verdict:
    """The verdict on one drawing, worked in this process. Raises BadSheet, BadRecord."""
    sheet = sheet_in_force(path, wanted)
    try:
        data = read_drawing(path, wanted.given)
    except UnreadableDrawing as trouble:
        return _unread(path, sheet, str(trouble), None)
    return check(data, _with_record(sheet, path), path=path, scale=wanted.scale)


def _with_record(sheet: Sheet, path: str) -> Sheet:
    """The sheet with the approval record that lies beside the drawing. Raises BadRecord."""
    return replace(sheet, approved=approved_for(path))


def _own_fault() -> str:
    """A sentence for a fault of our own: never the drawer's, and it says where to look."""
    if os.environ.get("GRILLE_LINT_TRACEBACK"):
        traceback.print_exc()
    return (
        "The check stumbled over something in this drawing that it should have understood: the fault is the "
        "tool's. Please send the drawing to its maintainers. Nothing in it was judged."
    )
