"""A fillet inside the forged corner.

Passes when:
    at least the asked number of forged corners have an inside radius in the range.
Why:
    upset metal pushed into the corner leaves a quarter-round inside, which keeps the grain running round it. A corner
    that is sharp inside hides a cold shut; one that is wide inside is a bend.
Measured:
    on a frame drawn as an outline, a circle fitted to the inner edge itself; on a centreline, the radius mark beside
    the corner: the circle fitted to its arc, or the radius that its text states ("R6"). Each mark goes to one
    corner, nearest pairs first.
Default and its source:
    1 corner: the class. From 1/8 in to one bar width: common practice, no source (seen: 1/4 to 1 bar width); a fillet
    inside is the published form (Ilgen, Forge Work, 1912, s. 75).
Mend:
    draw an arc on the layer "radius" that traces the inside of the corner, or write its radius beside it, like R6.
"""

from __future__ import annotations

from lint.lengths import say
from lint.panel.panel import Panel
from lint.panel.parts import Corner
from lint.panel.sides import CORNERS
from lint.result import Place, Result, Sign, Spot
from lint.rules._corners import corner_source, rounding_circle, without_corners
from lint.rules._finding import Figure, Finding, judged
from lint.rules._places import source, unscaled
from lint.rules._rule import not_applicable, rule
from lint.rules._strays import strays
from lint.sheet.sheet import Sheet

_NEAR = 0.01  # mm: a radius at the limit, as an editor rounds it, is within


@rule("inside-radius")
def inside_radius(panel: Panel, sheet: Sheet) -> Result:
    """Hold the inside radius of each forged corner against the range."""
    unmeasured = unscaled("inside-radius", panel) or without_corners("inside-radius", panel)
    if unmeasured or panel.frame is None:
        return unmeasured or not_applicable("inside-radius", "there is no frame", because="frame")
    forged = [(name, c) for name, c in zip(CORNERS, panel.frame.corners, strict=True) if c.made == "forged"]
    if not forged:
        return not_applicable("inside-radius", "no corner is forged", because="square-corners")
    low, high = sheet.inside_radius.smallest, sheet.inside_radius.largest * (panel.frame.bar_width or 0.0)
    good = [(name, corner) for name, corner in forged if _within(corner, low, high)]
    enough = len(good) >= sheet.inside_radius.least
    shown = sorted(forged, key=lambda named: named[1].inside_radius is None)  # a wrong radius says more than none
    findings = [_finding(name, corner, low, high, enough, panel, sheet) for name, corner in shown]
    findings += strays("inside-radius", panel, "Move the mark to its corner, or delete it.")
    best = good[0][1] if good else None
    asked = f"{say(low, sheet.units)} to {say(high, sheet.units)}"
    figure = Figure(measured=best.inside_radius if best else None, required=high, unit="mm", asked=asked)
    radii = ", ".join(f"{name} {_said(corner, sheet)}" for name, corner in forged)
    return judged(
        "inside-radius", findings, sheet, stands=f"Inside radius of the forged corners: {radii}.", figure=figure
    )


def _within(corner: Corner, low: float, high: float) -> bool:
    return corner.inside_radius is not None and low - _NEAR <= corner.inside_radius <= high + _NEAR


def _said(corner: Corner, sheet: Sheet) -> str:
    if corner.inside_radius is None:
        return "not drawn"
    by = {"arc": " by its arc", "text": " by its text"}.get(corner.inside_from, "")
    return f"{say(corner.inside_radius, sheet.units)}{by}"


def _finding(name: str, corner: Corner, low: float, high: float, enough: bool, panel: Panel, sheet: Sheet) -> Finding:
    """A corner: it stands, it is passed over because enough others stand, or it is to be mended."""
    x, y = corner.inner or corner.at
    fits = _within(corner, low, high)
    radius = corner.inside_radius
    words = "no inside radius is drawn" if radius is None else f"the inside radius is {_said(corner, sheet)}"
    limit = low if radius is not None and radius < low else high
    note = f"{words} at the {name} corner" + (
        "" if fits or radius is None else f": {_beyond(radius, low, high, sheet)}"
    )
    sign = Sign.STANDS if fits else Sign.FACT if enough else Sign.MEND
    trace = rounding_circle(corner, radius, inside=True) if radius else Spot(x=x, y=y)
    where = source(corner.origin) if corner.origin else corner_source(panel, corner)
    place = Place(x=x, y=y, note=note, sign=sign, source=where, measured=radius, traces=(trace,))
    asked = f"{say(low, sheet.units)} to {say(high, sheet.units)}"
    remedy = "Draw an arc on the layer radius inside the corner, or write its radius beside it, like R6."
    remedy = remedy if radius is None else f"Make the inside radius of the corner {asked}."
    return Finding(place=place, figure=Figure(measured=radius, required=limit, unit="mm", asked=asked), remedy=remedy)


def _beyond(radius: float, low: float, high: float, sheet: Sheet) -> str:
    return f"under {say(low, sheet.units)}" if radius < low else f"over one bar's {say(high, sheet.units)}"
