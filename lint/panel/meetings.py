"""Where the members of a frame meet, and where they fail to."""

from __future__ import annotations

import math
from collections.abc import Sequence

from lint.geometry.area import Area
from lint.geometry.band import bands
from lint.panel.parts import Bar, DrawnAs, Meeting, Point
from lint.values import dataclass

Extent = tuple[float, float, float, float]
_Boxed = tuple[Bar, Area, Extent]  # a member, its metal and the box round that

REACH = 1.5  # bar widths: an end this near another member's middle line is meant to meet it there


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tip:
    """One end of a member: the point and the way out of it, each as x + iy, and the metal of its last bar width. `far`
    says that the member's other end is so far off that the two could meet."""

    bar: Bar
    at: complex
    way: complex
    metal: Area
    far: bool


def _nearest_other(tip: _Tip, metals: Sequence[_Boxed]) -> tuple[Bar, Area, float] | None:
    """The member that the tip is nearest to, not its own, and the gap. One whose box is farther off than what was
    found already is not measured."""
    box = tip.metal.extent
    best: tuple[Bar, Area, float] | None = None
    for least, k in sorted((_apart(box, other), k) for k, (_, _, other) in enumerate(metals)):
        bar, metal, _ = metals[k]
        if best is not None and least > best[2]:
            break
        if bar is not tip.bar:
            gap = tip.metal.distance(metal)
            best = best if best is not None and best[2] <= gap else (bar, metal, gap)
    return best


def _apart(a: Extent, b: Extent) -> float:
    """How far two boxes (left, top, right, bottom) are apart, mm."""
    return math.hypot(max(b[0] - a[2], a[0] - b[2], 0.0), max(b[1] - a[3], a[1] - b[3], 0.0))


def meetings_of(members: Sequence[Bar]) -> tuple[Meeting, ...]:
    """Every place where a member's end stands by another member (or by its own other end), with the gap left.

    The place is where the middle lines of the two cross, near the end; two ends that meet in one corner are one
    meeting, and the gap is the smaller that either leaves.
    """
    found: list[Meeting] = []
    tips = _tips(members)  # two of each member
    metals = [(bar, bar.metal, bar.metal.extent) for bar in members if bar.metal is not None and not bar.metal.empty]
    for k, tip in enumerate(tips):
        meeting = _nearest(tip, tips[k ^ 1], metals)
        if meeting is None:
            continue
        same = next((m for m in found if _same(m, meeting, tip.bar.width or 0.0)), None)
        if same is None:
            found.append(meeting)
        elif meeting.gap < same.gap:
            found[found.index(same)] = Meeting(members=same.members, at=same.at, gap=meeting.gap)
    return tuple(found)


def _same(a: Meeting, b: Meeting, width: float) -> bool:
    return set(a.members) == set(b.members) and math.dist(a.at, b.at) <= REACH * width


def _tips(members: Sequence[Bar]) -> list[_Tip]:
    """Both ends of each member that has ends."""
    ends = [
        (bar, line.piece(line.length - min(bar.width, line.length / 3), line.length))
        for bar in members
        if bar.width and bar.metal is not None and not bar.line.closed and not bar.unread
        for line in (bar.line, bar.line.reversed())
    ]
    strips = bands([end for _, end in ends], [bar.width or 0.0 for bar, _ in ends], ["butt"] * len(ends))
    return [
        _Tip(
            bar=bar,
            at=complex(*end.points[-1]),
            way=complex(*end.tangent(end.length)),
            metal=strip.overlap(bar.metal) if bar.drawn_as is DrawnAs.OUTLINE and bar.metal else strip,
            far=bar.line.length > 6 * end.length,
        )
        for (bar, end), strip in zip(ends, strips, strict=True)
    ]


def _nearest(tip: _Tip, other_end: _Tip, metals: Sequence[_Boxed]) -> Meeting | None:
    """The member that this end is nearest to; its own other end only where no other member is near."""
    if tip.metal.empty:
        return None
    found = _nearest_other(tip, metals)
    if (found is None or found[2] > 0) and tip.far:
        gap = tip.metal.distance(other_end.metal)
        if found is None or gap < found[2]:
            found = tip.bar, other_end.metal, gap
    if found is None:
        return None
    bar, metal, gap = found
    return Meeting(members=(tip.bar.id, bar.id), at=_place(tip, bar, metal), gap=gap)


def _place(tip: _Tip, other: Bar, metal: Area) -> Point:
    """Where the end's middle line crosses the other's, if that is near; else between the two nearest points."""
    if other is not tip.bar:
        s, _ = other.line.nearest((tip.at.real, tip.at.imag))
        beside, along = complex(*other.line.at(s)), complex(*other.line.tangent(s))
        turn = (tip.way.conjugate() * along).imag
        step = ((beside - tip.at).conjugate() * along).imag / turn if abs(turn) > 0.2 else math.inf
        if abs(step) <= REACH * max(tip.bar.width or 0.0, other.width or 0.0):
            at = tip.at + step * tip.way
            return at.real, at.imag
    a, b = tip.metal.nearest(metal)
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
