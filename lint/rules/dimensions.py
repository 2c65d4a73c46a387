"""Not built yet."""

from __future__ import annotations

from lint.panel.panel import Panel
from lint.result import Result
from lint.rules._rule import not_applicable, rule
from lint.sheet.sheet import Sheet


@rule("dimensions")
def dimensions(panel: Panel, sheet: Sheet) -> Result:
    return not_applicable("dimensions", "not built yet")
