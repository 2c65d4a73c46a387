"""The layout repeats, about an upright or a level centre line, or by a half turn.

Passes when:
    for one of the three motions, every scroll's image lies on a scroll, within the limit.
Why:
    the eye finds the centre of a panel at once, and a scroll that is off by a few millimetres too. Some panels are
    unbalanced on purpose, so a person decides.
Measured:
    each scroll's image is laid against the nearest scroll; the figure of a motion is the largest distance over the
    panel, both ways, along the centrelines (outlines without their ends). The least of the three motions is given,
    the others only until they prove worse. Centre lines are the frame's own, by its corners; samples and infill bars do
    not count.
Default and its source:
    1/8 in (common practice, no source: seen across a room, less is not). Only a review, unless the sheet says that it
    fails.
Mend:
    copy one half of the layout and turn it over about the frame's centre line.
"""

from __future__ import annotations

from lint.lengths import say
from lint.panel.panel import Panel
from lint.result import Gap, Line, Place, Result, Sign
from lint.rules._finding import Figure, Finding, judged
from lint.rules._images import Image, images
from lint.rules._places import counted, middle, source, unscaled, without_frame, without_scrolls
from lint.rules._rule import rule
from lint.sheet.sheet import Sheet

WORDS = {
    "upright": "about the upright centre line",
    "level": "about the level centre line",
    "half turn": "by a half turn",
}


@rule("balance")
def balance(panel: Panel, sheet: Sheet) -> Result:
    """Lay the panel on its own image, three ways."""
    unmeasured = unscaled("balance", panel) or without_frame("balance", panel) or without_scrolls("balance", panel)
    if unmeasured:
        return unmeasured
    limit = sheet.balance.within
    laid = images(panel, sheet)
    best = laid[0]
    asked = f"at most {say(limit, sheet.units)}, one of three ways"
    figure = Figure(measured=best.off, required=limit, unit="mm", asked=asked)
    off = say(best.off, sheet.units)
    stands = f"The layout repeats {WORDS[best.motion]}: {counted(len(panel.scrolls), 'scroll')}, within {off}."
    if best.off <= limit:
        return judged(
            "balance",
            [_stands(panel, f"repeats {WORDS[best.motion]}, within {off}")],
            sheet,
            stands=stands,
            figure=figure,
        )
    also = f"Distances: {'; '.join(_said(image, sheet) for image in laid)}."
    return judged("balance", [_off(panel, sheet, best, figure)], sheet, stands=stands, figure=figure, also=also)


def _said(image: Image, sheet: Sheet) -> str:
    return f"{WORDS[image.motion]} {'' if image.whole else 'over '}{say(image.off, sheet.units)}"


def _stands(panel: Panel, note: str) -> Finding:
    left, top, right, bottom = panel.frame.metal.extent if panel.frame and panel.frame.metal else (0.0, 0.0, 0.0, 0.0)
    return Finding(place=Place(x=(left + right) / 2, y=(top + bottom) / 2, note=note, sign=Sign.STANDS))


def _off(panel: Panel, sheet: Sheet, image: Image, figure: Figure) -> Finding:
    scroll = panel.scrolls[image.scroll]
    size = say(image.off, sheet.units)
    x, y = middle(scroll)
    line = tuple((x, y) for x, y in image.line.tolist())
    traces = (Line(points=line), Gap(a=image.gap[0], b=image.gap[1], length=image.off))
    place = Place(
        x=x,
        y=y,
        note=f"the image of {scroll.bar.id} {WORDS[image.motion]} lies {size} off the nearest scroll",
        sign=Sign.MEND if sheet.balance.fails else Sign.LOOK,
        source=source(scroll.bar.origin),
        measured=image.off,
        traces=traces,
    )
    remedy = f"Move {scroll.bar.id} or its partner by {size}, or leave it if the panel is meant to be unbalanced."
    return Finding(place=place, figure=figure, remedy=remedy)
