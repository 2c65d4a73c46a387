"""Lengths that a drawing has to state, and does not."""

from __future__ import annotations

from lint.panel.panel import Panel
from lint.panel.parts import Scroll
from lint.result import Place, Sign
from lint.rules._finding import Figure, Finding
from lint.rules._places import middle, source
from lint.sheet.sheet import Sheet


def overall(panel: Panel, sheet: Sheet) -> list[Finding]:
    """The overall width or height, where it is asked and not stated."""
    stated = {of for d in panel.dimensions if d.stated is not None for of in d.spans}
    missing = [of for of in ("width", "height") if of not in stated] if sheet.dimensions.overall else []
    x, y = panel.origin
    return [
        Finding(
            place=Place(x=x, y=y, note=f"the overall {of} is not stated", sign=Sign.MEND),
            figure=Figure(measured=2.0 - len(missing), required=2.0, unit="count", asked="width and height stated"),
            remedy="Draw a line from edge to edge of the frame on the layer dimensions, with its length beside it.",
        )
        for of in missing
    ]


def families(panel: Panel, sheet: Sheet) -> list[Finding]:
    """Each family of scrolls of which no size is stated, where one is asked."""
    spanned = {of for d in panel.dimensions if d.stated is not None for of in d.spans}
    bare = [family for family in panel.families if not spanned & {scroll.bar.id for scroll in family}]
    return [_unsized(family[0], len(bare)) for family in bare] if sheet.dimensions.families else []


def _unsized(scroll: Scroll, count: int) -> Finding:
    x, y = middle(scroll)
    note = f"no size is stated of the scrolls like {scroll.bar.id}"
    return Finding(
        place=Place(x=x, y=y, note=note, sign=Sign.MEND, source=source(scroll.bar.origin)),
        figure=Figure(measured=float(count), required=0.0, unit="count", asked="a size of each kind of scroll"),
        remedy="Draw the width or the height of one such scroll as a dimension, from side to side of its metal.",
    )
