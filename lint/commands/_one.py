"""The one drawing of a call, read and held to its sheet, for the commands that make the smith's papers."""

from __future__ import annotations

from dataclasses import dataclass

from lint.check import check
from lint.commands._paths import read_drawing
from lint.errors import Refused, UnreadableDrawing
from lint.report.shown import shown
from lint.sheet import sheet_for
from lint.verdict import Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Call:
    """Which drawing, and what the options say of it: a sheet by name or file, a scale."""

    path: str
    sheet: str | None = None
    scale: str | None = None


def judged(call: Call) -> Verdict:
    """The verdict on the drawing. Raises Refused with one sentence, file and line in it, where it cannot be read."""
    try:
        data = read_drawing(call.path)
    except UnreadableDrawing as trouble:
        raise Refused(f"{shown(call.path)}: {trouble}") from trouble
    verdict = check(data, sheet_for(call.path, call.sheet), path=call.path, scale=call.scale)
    if verdict.panel is None:
        line = f":{verdict.line}" if verdict.line else ""
        raise Refused(f"{shown(call.path)}{line}: {verdict.error}")
    return verdict


def failing(verdict: Verdict) -> tuple[str, ...]:
    """The rules that the drawing fails and that no waiver covers."""
    return tuple(result.rule for result in verdict.results if result.stops)
