"""The whole story on one screen: bytes -> Drawing -> Panel -> Verdict."""

from __future__ import annotations

from dataclasses import replace

from lint.drawing import read
from lint.errors import UnreadableDrawing
from lint.panel import build
from lint.panel.panel import Panel
from lint.result import Kind, Result
from lint.rules import RULES
from lint.sheet.sheet import Sheet
from lint.sheet.waivers import waiver_for
from lint.verdict import Verdict


def check(data: bytes, sheet: Sheet, *, path: str = "-", scale: str | None = None) -> Verdict:
    """Read one drawing, measure it and hold it to the sheet.

    `data` is the file as it is (SVG or svgz). `scale` overrides what the drawing states ("1:4", "full size").
    Never raises for what is in the file: a drawing that cannot be read is a Verdict with its `error`.
    """
    try:
        drawing = read(data)
        panel = build(drawing, sheet, scale=scale)
    except UnreadableDrawing as trouble:
        return Verdict(path=path, sheet=sheet, panel=None, results=(), error=str(trouble), line=trouble.line)
    results = judge(panel, sheet, path)
    return Verdict(path=path, sheet=sheet, panel=panel, results=results, active=drawing.active)


def judge(panel: Panel, sheet: Sheet, path: str = "-") -> tuple[Result, ...]:
    """One result for each rule, in report order; a fail that the sheet waives carries its waiver."""
    return tuple(_waived(rule(panel, sheet), sheet, path) for rule in RULES)


def _waived(result: Result, sheet: Sheet, path: str) -> Result:
    if result.kind is not Kind.FAIL:
        return result
    return replace(result, waived=waiver_for(sheet, path, result.rule))
