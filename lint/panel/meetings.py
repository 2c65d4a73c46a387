"""Where the members of a frame meet, and where they fail to."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lint.geometry.area import Area
from lint.geometry.band import bands
from lint.panel.parts import Bar, DrawnAs, Meeting, Point
from lint.values import dataclass

Floats = NDArray[np.float64]

REACH = 1.5  # bar widths: an end this near another member's middle line is meant to meet it there


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tip:
    """One end of a member: the point, the way out of it, and the metal of its last bar width. `far` says that the
    member's other end is so far off that the two could meet."""

    bar: Bar
    at: Floats
    way: Floats
    metal: Area
    far: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _Others:
    """The members that have metal, and the boxes round it: left, top, right, bottom, shape (n, 4)."""

    bars: tuple[Bar, ...]
    boxes: Floats

    @classmethod
    def of(cls, members: Sequence[Bar]) -> _Others:
        bars = tuple(bar for bar in members if bar.metal is not None and not bar.metal.empty)
        extents = [bar.metal.extent for bar in bars if bar.metal is not None]
        return cls(bars=bars, boxes=np.array(extents, dtype=np.float64).reshape(-1, 4))

    def nearest(self, tip: _Tip) -> tuple[Bar, Area, float] | None:
        """The member that the tip is nearest to, not its own, and the gap. One whose box is farther off than what was
        found already is not measured."""
        left, top, right, bottom = tip.metal.extent
        across = np.maximum(self.boxes[:, 0] - right, left - self.boxes[:, 2])
        down = np.maximum(self.boxes[:, 1] - bottom, top - self.boxes[:, 3])
        least = np.hypot(np.maximum(across, 0), np.maximum(down, 0))
        best: tuple[Bar, Area, float] | None = None
        for k in np.argsort(least, kind="stable").tolist():
            bar, metal = self.bars[k], self.bars[k].metal
            if best is not None and least[k] > best[2]:
                break
            if bar is tip.bar or metal is None:
                continue
            gap = tip.metal.distance(metal)
            if best is None or gap < best[2]:
                best = bar, metal, gap
        return best


def meetings_of(members: Sequence[Bar]) -> tuple[Meeting, ...]:
    """Every place where a member's end stands by another member (or by its own other end), with the gap left.

    The place is where the middle lines of the two cross, near the end; two ends that meet in one corner are one
    meeting, and the gap is the smaller that either leaves.
    """
    found: list[Meeting] = []
    tips = _tips(members)  # two of each member
    others = _Others.of(members)
    for k, tip in enumerate(tips):
        meeting = _nearest(tip, tips[k ^ 1], others)
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
    strips = (
        bands([end for _, end in ends], [bar.width or 0.0 for bar, _ in ends], ["butt"] * len(ends)) if ends else ()
    )
    return [
        _Tip(
            bar=bar,
            at=end.points[-1],
            way=end.tangent(end.length),
            metal=strip.overlap(bar.metal) if bar.drawn_as is DrawnAs.OUTLINE and bar.metal else strip,
            far=bar.line.length > 6 * end.length,
        )
        for (bar, end), strip in zip(ends, strips, strict=True)
    ]


def _nearest(tip: _Tip, other_end: _Tip, others: _Others) -> Meeting | None:
    """The member that this end is nearest to; its own other end only where no other member is near."""
    if tip.metal.empty:
        return None
    found = others.nearest(tip)
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
    s, _ = other.line.nearest(tip.at)
    beside, along = other.line.at(s), other.line.tangent(s)
    turn = float(tip.way[0] * along[1] - tip.way[1] * along[0])
    if other is not tip.bar and abs(turn) > 0.2:
        away = beside - tip.at
        step = float(away[0] * along[1] - away[1] * along[0]) / turn
        if abs(step) <= REACH * max(tip.bar.width or 0.0, other.width or 0.0):
            x, y = tip.at + step * tip.way
            return float(x), float(y)
    a, b = tip.metal.nearest(metal)
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
