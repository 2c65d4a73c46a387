"""The drawing is still the one that was approved.

Passes when:
    the approval record kept beside the drawing fits it: the same geometry, held to the same sheet. Colours,
    ids, the order of objects, the editor, and a save that moves nothing by more than a few hundredths of a
    millimetre do not matter.

Why:
    The forged piece is judged against the drawing that the teacher agreed to. A drawing that moved after that
    is another drawing, and nobody agreed to it.

Measured:
    Every part, its place and its sizes against the rows of figures in DRAWING.approval.toml, part by part. The
    figure is the largest move in mm.

Default and its source:
    No record: the rule does not apply, for a drawing is approved after its first check. --approved, or
    [approval] required = true in the sheet, makes a missing record a fail. Common practice, no source: a
    change after the signature makes a new revision and asks for a new signature.

Mend:
    Take the change back, or have the new drawing approved: grille-lint approve DRAWING --by NAME.
"""

from __future__ import annotations

from dataclasses import replace

from lint.panel.changes import Change, changes
from lint.panel.figures import figures_of
from lint.panel.panel import Panel
from lint.result import Kind, Place, Result, Sign, Spot
from lint.rules._rule import not_applicable, rule
from lint.sheet.approved import Revision
from lint.sheet.sheet import Sheet

_MEND = "Take the change back, or have the drawing as it is now approved: grille-lint approve DRAWING --by NAME."
_NAMED = 5  # changes told in the message; the places hold them all


@rule("approval")
def approval(panel: Panel, sheet: Sheet) -> Result:
    """Hold the panel to the last revision of its record."""
    if sheet.approved is None:
        return _missing(sheet)
    last = sheet.approved.last
    moved = () if panel.digest == last.geometry_digest else changes(last.parts, figures_of(panel))
    other_sheet = last.sheet_digest != sheet.digest
    if not moved and not other_sheet:
        return _figured(Result(rule="approval", kind=Kind.PASS, message=f"This is the drawing of {_said(last)}."), ())
    told = "; ".join(change.sentence for change in moved[:_NAMED])
    more = f"; and {len(moved) - _NAMED} more" if len(moved) > _NAMED else ""
    sheets = f"it was held to another requirement sheet ({last.sheet}) or to other values of it" if other_sheet else ""
    what = "; ".join(part for part in (f"{told}{more}", sheets) if part)
    places = tuple(_place(change, panel) for change in moved)
    message = f"Since {_said(last)}: {what}."
    return _figured(Result(rule="approval", kind=Kind.FAIL, message=message, remedy=_MEND, places=places), moved)


def _missing(sheet: Sheet) -> Result:
    if not sheet.approval.required:
        return not_applicable("approval", "there is no approval record beside the drawing")
    return Result(
        rule="approval",
        kind=Kind.FAIL,
        message="There is no approval record beside the drawing, and one is asked for.",
        remedy="Have the drawing approved: grille-lint approve DRAWING --by NAME.",
        asked="an approval record",
        figure="none",
    )


def _said(last: Revision) -> str:
    return f"revision {last.number}, approved by {last.by} on {last.on}"


def _figured(result: Result, moved: tuple[Change, ...]) -> Result:
    most = max((change.moved for change in moved), default=0.0)
    number = f"{len(moved)} change{'' if len(moved) == 1 else 's'}"
    return replace(result, measured=most, required=0.0, unit="mm", figure=number, asked="no change")


def _place(change: Change, panel: Panel) -> Place:
    x, y = change.at or (0.0, 0.0)
    at = (x + panel.origin[0], y + panel.origin[1])
    traces = (Spot(x=at[0], y=at[1]),) if change.at else ()
    return Place(x=at[0], y=at[1], note=change.sentence, sign=Sign.MEND, measured=change.moved, traces=traces)
