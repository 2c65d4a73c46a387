"""One frame, closed all round, square.

Passes when:
    there is one frame, its metal closes, every corner is square, opposite sides are equal and the diagonals are equal.
Why:
    a frame that is racked or tapers does not fit its opening, and the scrolls within it do not fit the frame. Equal
    diagonals alone are not enough: a trapezoid that leans alike on both sides has them too.
Measured:
    on the outer boundary of the frame's metal, however it is drawn. A line is fitted to the straight run of each side;
    the corners are where the lines cross. Sides and diagonals run from corner to corner. The inside is measured alike.
Default and its source:
    angles within 1 degree, sides and diagonals within 1/16 in, gaps of 0.5 mm taken as closed: common practice, no
    source (joiners ask 2 mm of the diagonals of a framed door, which is an analogue only).
Mend:
    move the corner that is out so that both diagonals are equal; bring the ends of members together; keep one frame on
    the layer "frame".
"""

from __future__ import annotations

from dataclasses import replace

from lint.lengths import say
from lint.panel.panel import Panel
from lint.panel.parts import Frame
from lint.panel.sections import stock_beside
from lint.result import Place, Result, Sign
from lint.rules._brokenness import broken, one_frame
from lint.rules._finding import Figure, Finding, judged
from lint.rules._places import source
from lint.rules._rule import rule
from lint.rules._squareness import angles, out_of_true
from lint.sheet.sheet import Sheet

_SEEN = 0.01  # mm: a gap between members that is worth a word


@rule("frame")
def frame(panel: Panel, sheet: Sheet) -> Result:
    """Judge whether the frame is one, closes, and is square."""
    found = panel.frame
    if found is None:
        return judged("frame", [_missing(panel)], sheet, stands="", figure=one_frame(0))
    findings = broken(found, panel, sheet)
    if found.diagonals and found.sides:
        findings += [*angles(found, sheet), *(out_of_true(found, sheet) if panel.scale.known else [])]
        findings += [Finding(place=_size(found, sheet))] if panel.scale.known else []
    figure = _figure(found, panel, sheet)
    result = judged("frame", findings, sheet, stands=_stands(found, panel, sheet), figure=figure)
    apart = result.asked.startswith("diagonals")
    return replace(result, figure=f"diagonals {result.figure} apart") if apart else result


def _figure(found: Frame, panel: Panel, sheet: Sheet) -> Figure:
    if not found.diagonals or not panel.scale.known:
        return one_frame(1)
    off = abs(found.diagonals[0] - found.diagonals[1])
    return Figure(measured=off, required=sheet.frame.diagonals, unit="mm",
                  asked=f"diagonals equal within {say(sheet.frame.diagonals, sheet.units)}")  # fmt: skip


def _missing(panel: Panel) -> Finding:
    x, y = panel.origin
    place = Place(x=x, y=y, note="no object is named as the frame", sign=Sign.MEND)
    return Finding(place=place, figure=one_frame(0), remedy='Draw the frame on a layer called "frame", or name it so.')


def _size(found: Frame, sheet: Sheet) -> Place:
    x, y = found.corners[0].at
    note = f"outside {_by(found.outside, sheet)}, inside {_by(found.inside, sheet)}"
    return Place(x=x, y=y, note=note, sign=Sign.STANDS, source=source(found.members[0].origin))


def _by(size: tuple[float, float] | None, sheet: Sheet) -> str:
    return f"{say(size[0], sheet.units)} x {say(size[1], sheet.units)}" if size else "not measured"


def _stands(found: Frame, panel: Panel, sheet: Sheet) -> str:
    if not panel.scale.known:
        worst = max((abs(corner.angle - 90) for corner in found.corners), default=0.0)
        return f"One frame, closed, its corners square within {worst:.2f}°; without a scale its sides are not measured."
    a, b = found.diagonals or (0.0, 0.0)
    size = f"{_by(found.outside, sheet)} outside, {_by(found.inside, sheet)} inside"
    odd = stock_beside(found.bar_width or 0.0, sheet.stock.sizes) if found.bar_width else ()
    sizes = " and ".join(say(size, sheet.units) for size in odd)
    note = (
        f" Its bar of {say(found.bar_width or 0.0, sheet.units)} is no stock size; the nearest are {sizes}."
        if odd
        else ""
    )
    gap = f" A gap of {say(found.gap, sheet.units)} between members is taken as closed." if found.gap > _SEEN else ""
    return f"One frame, closed, {size}; diagonals {say(a, sheet.units)} and {say(b, sheet.units)}.{gap}{note}"
