"""Not built yet."""

from __future__ import annotations

from lint.panel.panel import Panel
from lint.result import Result
from lint.rules._rule import not_applicable, rule
from lint.sheet.sheet import Sheet


@rule("scroll-count")
def scroll_count(panel: Panel, sheet: Sheet) -> Result:
    return not_applicable("scroll-count", "not built yet")
