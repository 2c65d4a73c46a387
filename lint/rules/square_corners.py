"""Corners turned in one piece of bar, sharp outside.

Passes when:
    at least the asked number of corners are forged square: turned in one piece of bar, and sharp outside.
Why:
    a corner that is upset, bent and hammered sharp is what the panel teaches. A plain bend is round outside, and a
    joint is another exercise.
Measured:
    a corner is forged where the metal runs round it in one piece and no joint stands on it: a frame drawn as one path
    is forged at every corner without a joint mark, a corner where two members meet is a joint. Its angle lies between
    lines fitted to the straight runs of its sides; its outside radius is that of a circle fitted to what lies off both.
Default and its source:
    2 corners: the class. An outside radius of at most half the bar width: common practice, no source; hammered sharp
    and square outside is the published form (Ilgen, Forge Work, 1912, s. 75).
Mend:
    draw the bar round the corner as one path with a sharp corner (no rounding of the path, a mitred join), or take a
    joint mark away that does not belong there.
"""

from __future__ import annotations

from lint.panel.panel import Panel
from lint.panel.parts import Corner, Frame
from lint.panel.sides import CORNERS
from lint.result import Kind, Place, Result, Sign, Spot
from lint.rules._corners import bar_of, corner_source, length_said, rounding_circle, without_corners
from lint.rules._rule import not_applicable, rule
from lint.rules._squareness import HAIR
from lint.sheet.sheet import Sheet


@rule("square-corners")
def square_corners(panel: Panel, sheet: Sheet) -> Result:
    """Count the corners that are forged, square and sharp."""
    if (unmeasured := without_corners("square-corners", panel)) or panel.frame is None:
        return unmeasured or not_applicable("square-corners", "there is no frame", because="frame")
    found, least = panel.frame, sheet.square_corners.least
    why = {name: _why_not(c, panel, sheet) for name, c in zip(CORNERS, found.corners, strict=True)}
    good = [name for name, reason in why.items() if not reason]
    enough = len(good) >= least
    askew = [n for n, c in zip(CORNERS, found.corners, strict=True) if c.made == "forged" and _askew(c, sheet)]
    if not enough and len(good) + len(askew) >= least:
        return not_applicable("square-corners", "the forged corners are out of square", because="frame")
    corners = zip(CORNERS, found.corners, strict=True)
    return Result(
        rule="square-corners",
        kind=Kind.PASS if enough else Kind.FAIL,
        message=_message(good, why, least),
        remedy="" if enough else _remedy(found, why),
        measured=float(len(good)),
        required=float(least),
        unit="count",
        figure=f"{len(good)} of {len(found.corners)} corners",
        asked=f"at least {least} forged square",
        places=tuple(_place(name, corner, why[name], enough, panel, sheet) for name, corner in corners),
    )


def _why_not(corner: Corner, panel: Panel, sheet: Sheet) -> str:
    """What keeps a corner from being forged square; "" where nothing does."""
    if corner.made != "forged":
        return f"is {corner.made}"
    if _askew(corner, sheet):
        return f"is {corner.angle:.1f}°"
    if corner.cut:
        return "is cut off outside"
    limit = sheet.square_corners.outside_radius * bar_of(panel)
    radius = corner.outside_radius or 0.0
    if radius > limit + 0.01:
        return f"has an outside radius of {length_said(radius, panel, sheet)}, over {length_said(limit, panel, sheet)}"
    return ""


def _askew(corner: Corner, sheet: Sheet) -> bool:
    return abs(corner.angle - 90.0) > sheet.frame.angle + HAIR


def _message(good: list[str], why: dict[str, str], least: int) -> str:
    rest = "; ".join(f"the {name} corner {reason}" for name, reason in why.items() if reason)
    which = f" ({', '.join(good)})" if good else ""
    count = f"{len(good)} corner{' is' if len(good) == 1 else 's are'} forged square{which}; at least {least} are asked"
    return f"{count}. {rest[0].upper()}{rest[1:]}." if rest else f"{count}."


def _remedy(frame: Frame, why: dict[str, str]) -> str:
    if any("outside" in reason for reason in why.values()):
        return "Draw the outside of the corner sharp: a path with a sharp corner and a mitred join."
    if len(frame.members) > 1:
        return "Draw the bar round the corner as one path: a corner where two members meet is a joint."
    return "Take the joint mark from the corner that is to be forged."


def _place(name: str, corner: Corner, why: str, enough: bool, panel: Panel, sheet: Sheet) -> Place:
    x, y = corner.at
    radius = corner.outside_radius or 0.0
    note = (
        f"{name} corner {why}"
        if why
        else f"{name} corner forged, {corner.angle:.1f}°, outside {length_said(radius, panel, sheet)}"
    )
    sign = Sign.STANDS if not why else Sign.FACT if enough or corner.made != "forged" else Sign.MEND
    trace = rounding_circle(corner, radius, inside=False) if radius > HAIR else Spot(x=x, y=y)
    return Place(x=x, y=y, note=note, sign=sign, source=corner_source(panel, corner), traces=(trace,))
