"""What may fail, where, and why."""

from __future__ import annotations

from lint.result import Waiver
from lint.sheet.sheet import Sheet


def waiver_for(sheet: Sheet, path: str, rule: str) -> Waiver | None:
    """The sheet's waiver that covers this rule on this drawing, or None. `drawing` is a glob against the path
    relative to the sheet's folder."""
    raise NotImplementedError
