"""What a reader of the figures should know, and no rule asks about."""

from __future__ import annotations

from lint.drawing.drawn import Drawing
from lint.lengths import say
from lint.panel.bars import Metal
from lint.panel.parts import Bar, Role
from lint.sheet.sheet import Sheet

_CALLED = {Role.FRAME: "member of the frame", Role.SCROLL: "scroll", Role.BAR: "infill bar", Role.SAMPLE: "sample"}


def notes_on(drawing: Drawing, metal: Metal, sheet: Sheet) -> tuple[str, ...]:
    """The reader's notes, and which bars are as wide as they are only by the sheet. Whole sentences."""
    page = (drawing.page.remark,) if drawing.page.remark else ()
    by_sheet = ((role, [b for b in bars if b.width_from == "sheet"]) for role, bars in metal.bars.items())
    return (*page, *drawing.notes, *(_by_sheet(role, bars, sheet) for role, bars in by_sheet if bars))


def _by_sheet(role: Role, bars: list[Bar], sheet: Sheet) -> str:
    """A hairline drawing shows no width: whoever reads its openings must know whose width they rest on."""
    many = len(bars) > 1
    called = f"{len(bars)} {_CALLED[role]}s" if many else f"One {_CALLED[role]}"
    if role is Role.FRAME and many:
        called = f"{len(bars)} members of the frame"
    width = say(bars[0].width or 0.0, sheet.units)
    return f"{called} {'are' if many else 'is'} drawn as a hairline without a section: {width} wide by the sheet."
