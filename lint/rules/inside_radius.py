"""Not built yet."""

from __future__ import annotations

from lint.panel.panel import Panel
from lint.result import Result
from lint.rules._rule import not_applicable, rule
from lint.sheet.sheet import Sheet


@rule("inside-radius")
def inside_radius(panel: Panel, sheet: Sheet) -> Result:
    return not_applicable("inside-radius", "not built yet")
