"""The section of a bar: its width as seen, and the depth that a front view does not show."""

from __future__ import annotations

from lint.panel.parts import Bar
from lint.sheet.sheet import Section


def section_of(bar: Bar, asked: Section) -> tuple[Section | None, str]:
    """The bar's section and who says so; None where the drawing gives no width.

    The width is the drawn one. A depth that the drawing does not state is the sheet's for bars of this role:
    square where the sheet's bar is square, round where it is round, else the sheet's depth.
    """
    if bar.width is None:
        return None, "the drawing gives no width"
    width = _nominal(bar.width, asked.width)
    if bar.depth is not None:
        return Section(width=width, depth=bar.depth), "drawing"
    if asked.depth is None:
        return Section(width=width, depth=None), "width drawn, round by the sheet"
    if asked.depth == asked.width:
        return Section(width=width, depth=width), "width drawn, square by the sheet"
    return Section(width=width, depth=asked.depth), "width drawn, depth by the sheet"


def _nominal(drawn: float, stock: float) -> float:
    """The stock's own figure where the drawn one is within 0.05 mm of it (an outline is never drawn to the last
    hundredth), else the drawn one to 0.01 mm."""
    return stock if abs(drawn - stock) <= 0.05 else round(drawn, 2)
