"""The full-size patterns of a panel: one for each family of scrolls, and one of the whole."""

from __future__ import annotations

from lint.errors import Refused
from lint.panel.panel import Panel
from lint.sheet.sheet import Sheet
from lint.shop.jigs import families_of, jigs_of
from lint.shop.known import refuse_without_size
from lint.shop.panel_pattern import panel_pattern
from lint.shop.pattern import Pattern
from lint.shop.scroll_pattern import scroll_pattern
from lint.shop.turned import best_turn


def patterns_of(panel: Panel, sheet: Sheet, *, path: str = "-", paper: str = "sheet") -> tuple[Pattern, ...]:
    """One pattern for each family in order of number, samples among them, then the panel's.

    A family's is turned where that saves sheets of `paper` ("a4", "a3", "letter", "tabloid", "sheet").

    Raises Refused where the drawing has no scale, or there is nothing to draw.
    """
    refuse_without_size(panel, path)
    jigs = {jig.family: jig for jig in jigs_of(panel, sheet.scroll_match.overlay)}
    made = [
        scroll_pattern(panel, family, jigs[number], sheet, lies=(best_turn(family[0].bar.line, paper), paper))
        for number, family in families_of(panel)
    ]
    whole = panel_pattern(panel, sheet, paper=paper)
    patterns = (*made, whole) if whole else tuple(made)
    if not patterns:
        raise Refused(f"{path}: the drawing has no scroll, bar or frame, so there is nothing to make a pattern of.")
    return patterns
