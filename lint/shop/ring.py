"""A frame drawn in one piece, as the pieces of bar it is cut from: it is joined where a joint mark stands."""

from __future__ import annotations

import numpy as np

from lint.geometry.curve import Curve, curve
from lint.panel.parts import Bar, Corner, Frame
from lint.panel.sides import SIDES
from lint.shop.corners import fillet
from lint.shop.members import Member, Seat, drawn_apart

Sides = tuple[float, float, float, float]


def members_of(frame: Frame, reach: float) -> tuple[Member, ...]:
    """The pieces that the frame is cut as. A joint mark belongs to a meeting within `reach` mm and a bar width."""
    whole = frame.members[0] if len(frame.members) == 1 else None
    if whole is None or not frame.closed or len(frame.corners) != 4 or frame.sides is None:
        return drawn_apart(frame, reach)
    width = whole.width or frame.bar_width
    joined = [i for i, corner in enumerate(frame.corners) if corner.made == "joined"]
    if not joined or width is None:
        return (_closed_ring(frame, whole, frame.sides, width),)
    turns = [_sides_between(start, end) for start, end in zip(joined, joined[1:] + joined[:1], strict=True)]
    return tuple(_piece(frame, turn, turns, frame.sides, width) for turn in turns)


def _sides_between(start: int, end: int) -> tuple[int, ...]:
    """The sides from one corner clockwise to another, all four where both are one. Corner n begins side n."""
    return tuple((start + n) % 4 for n in range((end - start - 1) % 4 + 1))


def _closed_ring(frame: Frame, whole: Bar, sides: Sides, width: float | None) -> Member:
    corners = tuple(corner for corner in frame.corners if corner.made == "forged")
    return Member(
        bar=whole,
        name=whole.origin.name or whole.id,
        line=whole.line,
        body=whole.line.length if width is None else _volume(sides, width, corners) - width,
        corners=corners,
        seats=(),
        runs=(),
        notes=("one closed ring: the drawing does not show where it is joined, so nothing is allowed for a joint",),
    )


def _volume(runs: tuple[float, ...], width: float, corners: tuple[Corner, ...]) -> float:
    """Length by volume of runs with these outside lengths that turn at one corner fewer than there are runs."""
    return sum(runs) - width * (len(runs) - 1) + sum(fillet(corner.inside_radius or 0.0, width) for corner in corners)


def _piece(frame: Frame, turn: tuple[int, ...], turns: list[tuple[int, ...]], sides: Sides, width: float) -> Member:
    """The piece along the sides `turn`, between two joined corners. Where two pieces meet, the one with fewer
    forged corners carries the tenon; where they are alike, the level one (common practice)."""
    whole, first, last = frame.members[0], turn[0], (turn[-1] + 1) % 4
    before = next(other for other in turns if (other[-1] + 1) % 4 == first)
    after = next(other for other in turns if other[0] == last)
    carries = (
        _lighter(turn, turn[0]) <= _lighter(before, before[-1]),
        _lighter(turn, turn[-1]) < _lighter(after, after[0]),
    )
    seats = tuple(
        _seat(frame, corner, other, width, carried)
        for corner, other, carried in zip((first, last), (before, after), carries, strict=True)
    )
    runs = [sides[side] for side in turn]
    runs[0] -= width if carries[0] else 0.0
    runs[-1] -= width if carries[1] else 0.0
    corners = tuple(frame.corners[side] for side in turn[1:])
    return Member(
        bar=whole,
        name=f"{whole.origin.name or whole.id}: {_said(turn)}",
        line=_mean_line(frame, (*turn, last), width),
        body=_volume(tuple(runs), width, corners),
        corners=corners,
        seats=seats,
        runs=tuple(runs),
        notes=("the frame is drawn in one piece: it is cut here at its joints",),
    )


def _seat(frame: Frame, corner: int, other: tuple[int, ...], width: float, carries: bool) -> Seat:
    joint = frame.corners[corner].joint
    return Seat(
        kind=joint.kind if joint else "",
        into=_said(other),
        depth=width,
        carries=carries,
        at=frame.corners[corner].at,
    )


def _lighter(turn: tuple[int, ...], side: int) -> tuple[int, int]:
    """For choosing which piece carries the tenon: forged corners, then 0 for a level side."""
    return len(turn) - 1, side % 2


def _said(turn: tuple[int, ...]) -> str:
    return " and ".join(SIDES[side] for side in turn) if len(turn) < 3 else ", ".join(SIDES[side] for side in turn)


def _mean_line(frame: Frame, corners: tuple[int, ...], width: float) -> Curve:
    """Half a bar inside the outer corners, for the picture."""
    points = np.array([frame.corners[corner].at for corner in corners])
    middle = np.array([corner.at for corner in frame.corners]).mean(axis=0)
    return curve(points + np.sign(middle - points) * width / 2, closed=False)
