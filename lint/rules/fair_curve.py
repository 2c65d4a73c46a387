"""Scrolls that tighten steadily from the middle to each end, with no kink, no flat and no bend too tight.

Passes when:
    no scroll has a kink, a flat or a backward step, and no bend is tighter than the bar can take.
Why:
    a fair curve is what the eye sees first in a scroll. A kink or a flat in the drawing becomes one in the jig, and
    so in every scroll bent on it. A bend too tight cannot be forged so.
Measured:
    curvature on equal steps of arc length, smoothed at the bar's width. A kink is a break of the tangent that the bend
    about it does not explain; a flat a stretch of a curl where the curvature falls to nearly nothing and rises
    again; a backward step one where a curl opens again on its way to its end. The slack middle of a scroll is no
    flat. The inner radius is the centreline's less half the bar. Places are mm along the bar from its first end.
    The limits were set so that curves which are fair by definition (spirals, involute, clothoid, arcs of growing
    radius), drawn as editors draw them (four-node curves, polylines, arcs), raise no alarm.
Default and its source:
    kink 5 degrees (common practice, no source: 1 degree can be seen, and editors make as much from rounding). Inner
    radius half a bar's width (common practice, no source: hot mild steel in the eye). A review only, for the eye judges
    a curve and the figure says where to look, unless the sheet says that it fails.
Mend:
    smooth the node at the kink, pull the flat into the curl, let each curl tighten all the way, open a tight eye.
"""

from __future__ import annotations

from lint.lengths import say
from lint.panel.panel import Panel
from lint.panel.parts import Scroll
from lint.result import Place, Result, Sign
from lint.rules._bends import Tightest, bends_of
from lint.rules._finding import Figure, Finding, judged
from lint.rules._places import counted, middle, source, without_scrolls
from lint.rules._rule import not_applicable, rule
from lint.sheet.sheet import Sheet


@rule("fair-curve")
def fair_curve(panel: Panel, sheet: Sheet) -> Result:
    """Follow each scroll's curvature."""
    if missing := without_scrolls("fair-curve", panel):
        return missing
    able = [scroll for scroll in panel.scrolls if not scroll.bar.unread]
    if not able:
        return not_applicable("fair-curve", "no scroll can be read as one bar", because="scroll-count")
    followed = _followed(able, panel, sheet)
    findings = [finding for found, _ in followed for finding in found]
    tightest = [tight for _, tight in followed if tight]
    for scroll in panel.scrolls:
        if scroll.bar.unread:
            x, y = middle(scroll)
            note = f"{scroll.bar.id} cannot be followed: {scroll.bar.unread}"
            findings.append(Finding(place=Place(x=x, y=y, note=note, sign=Sign.FACT, source=source(scroll.bar.origin))))
    least = min(tightest, key=lambda tight: tight.share, default=None)
    figure, tight_words = _tightest(least, panel, sheet)
    stands = f"{counted(len(able), 'scroll')} with no kink, no flat and no backward step{tight_words}."
    return judged("fair-curve", findings, sheet, stands=stands, figure=figure)


def _followed(scrolls: list[Scroll], panel: Panel, sheet: Sheet) -> list[tuple[list[Finding], Tightest | None]]:
    """What each scroll shows. An exact copy of a fair scroll of the same bar is as fair, and is not followed again."""
    fair: dict[tuple[str, float | None], tuple[list[Finding], Tightest | None]] = {}
    followed = []
    for scroll in scrolls:
        shown = fair.get((scroll.copy_of, scroll.bar.width)) or bends_of(scroll, sheet, scaled=panel.scale.known)
        if not shown[0]:
            fair[scroll.bar.id, scroll.bar.width] = shown
        followed.append(shown)
    return followed


def _tightest(least: Tightest | None, panel: Panel, sheet: Sheet) -> tuple[Figure, str]:
    """The figure of a pass: the tightest inner radius, in mm where the drawing has a size, and the words for it."""
    asked = f"at least {sheet.fair_curve.inner_radius:g} bar widths"
    if least is None:
        known = any(scroll.bar.width for scroll in panel.scrolls)
        words = "; none of them bends" if known else "; the bars' widths are not known"
        return Figure(measured=None, required=None, unit="", asked=asked), words
    widths = f"{least.share:.2f} bar widths"
    if not panel.scale.known:
        required = sheet.fair_curve.inner_radius
        figure = Figure(measured=least.share, required=required, unit="", asked=asked, said=f"inner radius {widths}")
        return figure, f"; tightest inner radius {widths}"
    required = sheet.fair_curve.inner_radius * least.width
    said = f"inner radius {say(least.radius, sheet.units)}"
    asked = f"inner radius of {say(required, sheet.units)} or more"
    figure = Figure(measured=least.radius, required=required, unit="mm", asked=asked, said=said)
    return figure, f"; tightest inner radius {say(least.radius, sheet.units)} ({widths})"
