"""The layout repeats, about an upright or a level centre line, or by a half turn.

Passes when:
    for one of the three motions, every scroll's image lies on a scroll, within the limit.
Why:
    the eye finds the centre of a panel at once, and a scroll that is off by a few millimetres too. Some panels are
    unbalanced on purpose, so a person decides.
Measured:
    each scroll's image is laid against the nearest scroll; the figure of a motion is the largest distance over the
    panel, both ways, along the centrelines (outlines without their ends). The least of the three motions is
    given. Centre lines are the frame's own, by its corners; samples and infill bars do not count.
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
from lint.rules._images import Image, largest_off
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
    images = {motion: largest_off(panel, sheet, motion) for motion in WORDS}
    best = min(images, key=lambda motion: images[motion].off)
    off = images[best].off
    figure = Figure(
        measured=off, required=limit, unit="mm", asked=f"at most {say(limit, sheet.units)}, one of three ways"
    )
    all_three = "; ".join(f"{WORDS[motion]} {say(image.off, sheet.units)}" for motion, image in images.items())
    finding = _stands(panel, all_three) if off <= limit else _off(panel, sheet, images[best], WORDS[best], figure)
    scrolls = counted(len(panel.scrolls), "scroll")
    stands = f"The layout repeats {WORDS[best]}: {scrolls}, largest distance {say(off, sheet.units)}."
    also = "" if off <= limit else f"Distances: {all_three}."
    return judged("balance", [finding], sheet, stands=stands, figure=figure, also=also)


def _stands(panel: Panel, all_three: str) -> Finding:
    left, top, right, bottom = panel.frame.metal.extent if panel.frame and panel.frame.metal else (0.0, 0.0, 0.0, 0.0)
    place = Place(x=(left + right) / 2, y=(top + bottom) / 2, note=f"distances: {all_three}", sign=Sign.FACT)
    return Finding(place=place)


def _off(panel: Panel, sheet: Sheet, image: Image, words: str, figure: Figure) -> Finding:
    scroll = panel.scrolls[image.scroll]
    size = say(image.off, sheet.units)
    x, y = middle(scroll)
    traces = (Line(points=image.line), Gap(a=image.gap[0], b=image.gap[1], length=image.off))
    place = Place(
        x=x,
        y=y,
        note=f"the image of {scroll.bar.id} {words} lies {size} off the nearest scroll",
        sign=Sign.MEND if sheet.balance.fails else Sign.LOOK,
        source=source(scroll.bar.origin),
        measured=image.off,
        traces=traces,
    )
    remedy = f"Move {scroll.bar.id} or its partner by {size}, or leave it if the panel is meant to be unbalanced."
    return Finding(place=place, figure=figure, remedy=remedy)
