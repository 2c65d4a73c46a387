"""The verdict on one drawing: the panel that was read, the sheet it was held to, and one result for each rule."""

from __future__ import annotations

from lint.panel.panel import Panel
from lint.result import Kind, Result
from lint.sheet.sheet import Sheet
from lint.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Verdict:
    """`path` is the drawing as the caller named it. `panel` is None and `error` a sentence where the drawing
    could not be read (`line` says where in the file). `results` are in report order."""

    path: str
    sheet: Sheet
    panel: Panel | None
    results: tuple[Result, ...]
    error: str = ""
    line: int | None = None
    active: tuple[str, ...] = ()  # scripts, handlers and external references that a marked-up copy leaves out

    @property
    def word(self) -> str:
        """ "unreadable", "fail", "review" or "pass": the worst that any rule says, waived fails excepted."""
        if self.panel is None:
            return "unreadable"
        if any(result.stops for result in self.results):
            return "fail"
        return "review" if any(result.kind is Kind.REVIEW for result in self.results) else "pass"
