"""What keeps members from being one closed, four-sided frame."""

from __future__ import annotations

from lint.lengths import say
from lint.panel.parts import Frame
from lint.result import Line, Place, Sign, Spot
from lint.rules._finding import Figure, Finding
from lint.rules._places import source
from lint.sheet.sheet import Sheet


def one_frame(count: int) -> Figure:
    """The figure of a rule that asks for one frame and finds `count`."""
    return Figure(measured=float(count), required=1.0, unit="count", asked="one frame, closed and square")


def broken(found: Frame, sheet: Sheet) -> list[Finding]:
    """What keeps the members from being one closed, four-sided frame."""
    where = source(found.members[0].origin)
    line = found.outer or found.members[0].line
    x, y = line.points[0]
    if found.closed and not found.trouble:
        return []
    if not found.closed and found.metal is not None:
        return [_open(found, sheet)]
    note = f"the frame is not one rectangle: {found.trouble}"
    trace = Line(points=tuple((float(a), float(b)) for a, b in line.points), closed=line.closed)
    place = Place(x=float(x), y=float(y), note=note, sign=Sign.MEND, source=where, traces=(trace,))
    return [
        Finding(
            place=place,
            figure=one_frame(1),
            remedy="Draw one frame of four straight sides, as one piece or in members that meet.",
        )
    ]


def _open(found: Frame, sheet: Sheet) -> Finding:
    widest = max(found.meetings, key=lambda meeting: meeting.gap, default=None)
    x, y = (
        widest.at if widest else (float(found.members[0].line.points[0][0]), float(found.members[0].line.points[0][1]))
    )
    note = f"the frame is open: the widest gap between its members is {say(found.gap, sheet.units)}"
    place = Place(
        x=x,
        y=y,
        note=note,
        sign=Sign.MEND,
        source=source(found.members[0].origin),
        traces=(Spot(x=x, y=y),),
        measured=found.gap,
    )
    figure = Figure(measured=found.gap, required=sheet.frame.gap, unit="mm", asked="closed all round")
    return Finding(
        place=place, figure=figure, remedy="Bring the ends of the members together so that their metal meets."
    )
