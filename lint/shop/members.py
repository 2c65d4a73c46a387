"""The frame as pieces of bar: where it is cut, which corners are forged in each, which end carries a tenon."""

from __future__ import annotations

from dataclasses import field
from itertools import pairwise

import numpy as np

from lint.geometry.curve import Curve
from lint.panel.parts import Bar, Corner, Frame, Joint, Meeting, Point
from lint.shop.corners import fillet
from lint.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """An end of a piece at a joint: what kind, which member it goes into, and how deep that is (mm). `carries`
    is True where this end is the tenon, False where the other member comes into this one."""

    kind: str
    into: str
    depth: float
    carries: bool
    at: Point


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Member:
    """One piece of the frame, shoulder to shoulder.

    `body` is its length in mm by volume: its metal's area over its width, so that a corner sharp outside with a
    fillet inside has all its metal (A + B - t + (1 - pi/4) r^2 / t for one corner).
    """

    bar: Bar
    name: str
    line: Curve
    body: float
    corners: tuple[Corner, ...]
    seats: tuple[Seat, ...]
    runs: tuple[float, ...]  # outside length of each straight run in order, mm; () where not known
    notes: tuple[str, ...] = field(default=())


def drawn_apart(frame: Frame, reach: float) -> tuple[Member, ...]:
    """The pieces of a frame whose members are drawn one by one; a joint mark belongs to a meeting within `reach`
    mm and a bar width."""
    return tuple(_drawn_apart(frame, bar, reach) for bar in frame.members)


def _drawn_apart(frame: Frame, bar: Bar, reach: float) -> Member:
    mine = [meeting for meeting in frame.meetings if bar.id in meeting.members and len(set(meeting.members)) == 2]
    seats = tuple(_seat(frame, bar, meeting, reach) for meeting in mine)
    corners = tuple(corner for corner in frame.corners if corner.made == "forged" and owner(frame, corner) is bar)
    notes = [] if bar.width is not None else ["its width is not known, so its corners and joints are not reckoned"]
    notes += [f"the joint with {seat.into} has no mark: nothing is allowed for it" for seat in seats if not seat.kind]
    return Member(
        bar=bar,
        name=bar.origin.name or bar.id,
        line=bar.line,
        body=_body(frame, bar, seats, corners),
        corners=corners,
        seats=seats,
        runs=_runs(bar, corners),
        notes=tuple(dict.fromkeys(notes)),
    )


def owner(frame: Frame, corner: Corner) -> Bar:
    """The member that turns at a forged corner: the one whose centreline passes nearest."""
    return min(frame.members, key=lambda bar: bar.line.nearest(corner.at)[1])


def _body(frame: Frame, bar: Bar, seats: tuple[Seat, ...], corners: tuple[Corner, ...]) -> float:
    if bar.width is None or bar.metal is None:
        return bar.line.length
    metal = bar.metal
    for seat in seats:
        other = _member(frame, seat.into)
        if seat.carries and other.metal is not None:
            metal = metal.less(other.metal)
    marked = [c.inside_radius or 0.0 for c in corners if c.inside_from not in {"outline", ""}]
    return metal.size / bar.width + sum(fillet(radius, bar.width) for radius in marked)


def _member(frame: Frame, name: str) -> Bar:
    return next(bar for bar in frame.members if bar.id == name)


def _seat(frame: Frame, bar: Bar, meeting: Meeting, reach: float) -> Seat:
    other = _member(frame, next(m for m in meeting.members if m != bar.id))
    joint = _joint_at(frame.joints, meeting.at, reach + (frame.bar_width or 0.0))
    return Seat(
        kind=joint.kind if joint else "",
        into=other.id,
        depth=other.width or 0.0,
        carries=_carrier(frame, bar, other, meeting.at) is bar,
        at=meeting.at,
    )


def _joint_at(joints: tuple[Joint, ...], at: Point, reach: float) -> Joint | None:
    near = [(float(np.hypot(j.at[0] - at[0], j.at[1] - at[1])), i) for i, j in enumerate(joints)]
    close = min(near, default=(np.inf, 0))
    return joints[close[1]] if close[0] <= reach else None


def _carrier(frame: Frame, one: Bar, other: Bar, at: Point) -> Bar:
    """Which of two members ends on the other's side, and so carries the tenon.

    It is the one whose end lies nearest the other's centreline; where they are alike (a mitre, or centrelines
    that meet in a point) the one with fewer forged corners, then the more level one (common practice).
    """
    gaps = (_end_gap(one, other, at), _end_gap(other, one, at))
    if abs(gaps[0] - gaps[1]) > 0.25:
        return one if gaps[0] < gaps[1] else other
    return min((one, other), key=lambda bar: (_forged(frame, bar), _steepness(bar), bar.id))


def _end_gap(bar: Bar, other: Bar, at: Point) -> float:
    """From the end of `bar` that is nearest `at` to the other's centreline, mm."""
    if bar.line.closed:
        return float("inf")
    ends = bar.line.points[[0, -1]]
    nearest = ends[int(np.argmin(np.hypot(*(ends - np.array(at)).T)))]
    return other.line.nearest((float(nearest[0]), float(nearest[1])))[1]


def _forged(frame: Frame, bar: Bar) -> int:
    return sum(corner.made == "forged" and owner(frame, corner) is bar for corner in frame.corners)


def _steepness(bar: Bar) -> float:
    across, down = np.abs(bar.line.points[-1] - bar.line.points[0])
    return round(float(np.arctan2(down, across)), 3)


def _runs(bar: Bar, corners: tuple[Corner, ...]) -> tuple[float, ...]:
    """Outside lengths between the member's forged corners, mm, in the order of its line."""
    if bar.width is None or bar.line.closed:
        return ()
    stations = sorted(bar.line.nearest(corner.at)[0] for corner in corners)
    if not stations:
        return (bar.line.length,)
    half = bar.width / 2
    inner = [b - a + bar.width for a, b in pairwise(stations)]
    return (stations[0] + half, *inner, bar.line.length - stations[-1] + half)
