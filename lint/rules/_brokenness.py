"""What keeps members from being one closed, four-sided frame."""

from __future__ import annotations

from collections.abc import Iterator

from lint.panel.panel import Panel
from lint.panel.parts import Frame
from lint.result import Line, Place, Sign, Spot
from lint.rules._corners import length_said
from lint.rules._finding import Figure, Finding
from lint.rules._places import source
from lint.sheet.sheet import Sheet

_ONE = "Draw one frame of four straight sides, as one piece or in members that meet."
_MEET = "Bring the ends of the members together so that their metal meets."
_WIDTH = "Draw the stroke at the bar's width, or name the frame with its section, like frame 12x12."


def one_frame(count: int) -> Figure:
    """The figure of a rule that asks for one frame and finds `count`."""
    return Figure(measured=float(count), required=1.0, unit="count", asked="one frame, closed and square")


def broken(found: Frame, panel: Panel, sheet: Sheet) -> list[Finding]:
    """The first thing that is wrong with the whole, and each member that cannot be read as a bar."""
    return [*_whole(found, panel, sheet), *_unread(found)]


def _whole(found: Frame, panel: Panel, sheet: Sheet) -> Iterator[Finding]:
    if found.metal is None:
        yield _finding(found, f"the frame cannot be measured: {found.trouble}", one_frame(1), _WIDTH)
    elif not found.closed:
        note = f"the frame is open: the widest gap between its members is {length_said(found.gap, panel, sheet)}"
        figure = Figure(measured=found.gap, required=sheet.frame.gap, unit="mm", asked="closed all round")
        if not panel.scale.known:
            said = length_said(found.gap, panel, sheet)
            figure = Figure(measured=None, required=None, unit="", asked="closed all round", said=said)
        yield _finding(found, note, figure, _MEET)
    elif found.trouble:
        yield _finding(found, f"the frame is not one rectangle: {found.trouble}", one_frame(1), _ONE)


def _finding(found: Frame, note: str, figure: Figure, remedy: str) -> Finding:
    """A fault of the whole, at its widest gap where it has one, its edge traced."""
    line = found.outer or found.members[0].line
    widest = max(found.meetings, key=lambda meeting: meeting.gap, default=None)
    x, y = widest.at if widest and not found.closed else (float(line.points[0][0]), float(line.points[0][1]))
    edge = Line(points=tuple((float(a), float(b)) for a, b in line.points), closed=line.closed)
    where = source(found.members[0].origin)
    place = Place(x=x, y=y, note=note, sign=Sign.MEND, source=where, measured=figure.measured,
                  traces=(edge if found.closed else Spot(x=x, y=y),))  # fmt: skip
    return Finding(place=place, figure=figure, remedy=remedy)


def _unread(found: Frame) -> Iterator[Finding]:
    """Members that are no bar: to be looked at, unless one is a whole ring, whose sides can be judged all the same."""
    for bar in found.members:
        if bar.unread:
            ring = found.closed and not found.trouble and bar.metal is not None and len(bar.metal.holes) == 1
            x, y = bar.unread_at or (float(bar.line.points[0][0]), float(bar.line.points[0][1]))
            note = f"{bar.id} cannot be read as a bar of the frame: {bar.unread}"
            place = Place(
                x=x,
                y=y,
                note=note,
                sign=Sign.FACT if ring else Sign.LOOK,
                source=source(bar.origin),
                traces=(Spot(x=x, y=y),),
            )
            yield Finding(place=place, figure=one_frame(1), remedy="Draw each member as an outline of its own.")
