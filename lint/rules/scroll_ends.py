"""Not built yet."""

from __future__ import annotations

from lint.panel.panel import Panel
from lint.result import Result
from lint.rules._rule import not_applicable, rule
from lint.sheet.sheet import Sheet


@rule("scroll-ends")
def scroll_ends(panel: Panel, sheet: Sheet) -> Result:
    return not_applicable("scroll-ends", "not built yet")
