"""The two sides of a bar, in step: a row of chords across it, each square to the centreline."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve
from lint.geometry.medial_way import Way
from lint.geometry.medial_web import EdgePoints

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

# Chords for each bar width of length: at an eye as tight as the bar is wide, chords of the centreline an eighth of
# a width long are 0.07 % short. More would cost time and follow the edge's own unsteadiness.
CHORDS_A_WIDTH = 8

# A side whose run along the bar is under this share of its length (cosine of 70 degrees) is no side but an end.
STEEPEST = 0.35


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Rows:
    """Chords across a bar, one a row, from end to end: the middle (n, 2), where its two feet stand on the rings
    of the left and right side (arc length, mm, running on past a ring's start), and whether the row marks a
    corner of the edge. `closed` rows run round."""

    left_ring: Curve
    right_ring: Curve
    middle: Floats
    left: Floats
    right: Floats
    corner: Flags
    closed: bool

    @property
    def along(self) -> Floats:
        """Arc length of each row's middle, mm; for closed rows one more, the whole length."""
        run = np.concatenate([self.middle, self.middle[:1]]) if self.closed else self.middle
        return np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(run, axis=0).T))])

    @property
    def widths(self) -> Floats:
        """Length of each chord, mm."""
        across = self.left_ring.at(self.left) - self.right_ring.at(self.right)
        return np.hypot(across[:, 0], across[:, 1])

    def part(self, first: int, last: int) -> Rows:
        """The rows from `first` to `last`, that one included."""
        own = slice(first, last + 1)
        return replace(
            self, middle=self.middle[own], left=self.left[own], right=self.right[own], corner=self.corner[own]
        )


def rows_of(rings: tuple[Curve, ...], edge: EdgePoints, way: Way) -> Rows | None:
    """The rows that a way crosses; corners and burrs beside it are swept by a fan of chords, so that a sharp
    corner's centreline is mitred. None where one side of the way does not keep to one ring."""
    rings_met = {int(r) for r in edge.ring[way.left]}, {int(r) for r in edge.ring[way.right]}
    if any(len(met) > 1 for met in rings_met):
        return None
    left, right = _swept(edge, way)
    keeps = edge.corner[left] & _fresh(left) | edge.corner[right] & _fresh(right)
    left_ring, right_ring = rings[rings_met[0].pop()], rings[rings_met[1].pop()]
    return Rows(
        left_ring=left_ring,
        right_ring=right_ring,
        middle=(edge.points[left] + edge.points[right]) / 2,
        left=_unwrapped(edge.s[left], left_ring.length),
        right=_unwrapped(edge.s[right], right_ring.length),
        corner=keeps,
        closed=way.closed,
    )


def _fresh(index: Ints) -> Flags:
    return np.concatenate([[True], index[1:] != index[:-1]])


def _swept(edge: EdgePoints, way: Way) -> tuple[Ints, Ints]:
    """The two feet of each chord as edge points, no point of either side passed over."""
    steps = [_steps_along(edge, side, way.closed) for side in (way.left, way.right)]
    gates = len(way.left) if way.closed else len(way.left) - 1
    most = np.maximum(np.maximum(steps[0][1], steps[1][1]), 1)
    gate = np.repeat(np.arange(gates), most)
    ordinal = np.arange(len(gate)) - np.repeat(np.cumsum(most) - most, most)
    swept = []
    for side, (onward, count) in zip((way.left, way.right), steps, strict=True):
        first, size = _ring_of(edge, int(side[0]))
        taken = side[gate] - first + onward * np.minimum(ordinal, count[gate])
        index = first + np.mod(taken, size)
        swept.append(index if way.closed else np.append(index, side[-1]))
    return swept[0], swept[1]


def _ring_of(edge: EdgePoints, point: int) -> tuple[int, int]:
    own = np.flatnonzero(edge.ring == edge.ring[point])
    return int(own[0]), len(own)


def _steps_along(edge: EdgePoints, side: Ints, closed: bool) -> tuple[int, Ints]:
    """Whether the side runs with its ring (1) or against it (-1), and the edge points between neighbours."""
    before, after = (side, np.roll(side, -1)) if closed else (side[:-1], side[1:])
    with_ring = int((edge.after[before] == after).sum()) - int((edge.after[after] == before).sum())
    onward = 1 if with_ring >= 0 else -1
    size = _ring_of(edge, int(side[0]))[1]
    return onward, np.mod(onward * (after - before), size)


def _unwrapped(s: Floats, whole: float) -> Floats:
    return np.unwrap(s, period=whole)


def evenly(rows: Rows, width: float) -> Rows:
    """Rows in equal steps along the bar (`CHORDS_A_WIDTH` for each `width` mm), those at corners kept."""
    along = rows.along
    whole = float(along[-1])
    step = width / CHORDS_A_WIDTH
    count = max(int(np.ceil(whole / step)), 8)
    even = np.linspace(0.0, whole, count + 1)[: count if rows.closed else count + 1]
    kept = along[: len(rows.corner)][rows.corner]
    if len(kept):
        place = np.clip(np.searchsorted(kept, even), 1, len(kept)) - 1
        near = np.minimum(np.abs(even - kept[place]), np.abs(even - kept[np.minimum(place + 1, len(kept) - 1)]))
        even = even[(near > step / 2) | (even == 0.0) | (even == whole)]
    where = np.union1d(even, kept)
    return _at(rows, along, where, np.isin(where, kept))


def _at(rows: Rows, along: Floats, where: Floats, corner: Flags) -> Rows:
    middle, left, right = rows.middle, rows.left, rows.right
    if rows.closed:
        middle = np.concatenate([middle, middle[:1]])
        left = np.append(left, left[0] + _lap(left, rows.left_ring.length))
        right = np.append(right, right[0] + _lap(right, rows.right_ring.length))
    placed = np.column_stack([np.interp(where, along, middle[:, axis]) for axis in (0, 1)])
    return replace(
        rows,
        middle=placed,
        left=np.interp(where, along, left),
        right=np.interp(where, along, right),
        corner=corner,
    )


def _lap(s: Floats, whole: float) -> float:
    return whole if s[-1] >= s[0] else -whole


def headings(rows: Rows, width: float) -> Floats:
    """Unit tangents of the centreline at each row, over half a width of it: (n, 2)."""
    along = rows.along
    whole = float(along[-1])
    own = along[: len(rows.middle)]
    run = np.concatenate([rows.middle, rows.middle[:1]]) if rows.closed else rows.middle
    reach = min(width / 4, whole / 4)

    def at(s: Floats) -> Floats:
        s = np.mod(s, whole) if rows.closed else np.clip(s, 0.0, whole)
        return np.column_stack([np.interp(s, along, run[:, axis]) for axis in (0, 1)])

    back = reach if rows.closed else np.minimum(reach, np.maximum(own, whole * 1e-6))
    fore = reach if rows.closed else np.minimum(reach, np.maximum(whole - own, whole * 1e-6))
    even = np.minimum(back, fore) if not rows.closed else reach
    lopsided = even < reach / 2
    back, fore = np.where(lopsided, back, even), np.where(lopsided, fore, even)
    way = at(own + fore) - at(own - back)
    return way / np.maximum(np.hypot(way[:, 0], way[:, 1]), 1e-300)[:, None]


def squared(rows: Rows, width: float, *, ends_stay: bool = False) -> Rows:
    """The rows with each chord turned square to the centreline and its middle moved onto the chord's.

    A chord that cannot be squared within a bar's width (beside a sharp corner) stays as it is; with `ends_stay`
    so do the first and the last.
    """
    for _ in range(2):
        heading = headings(rows, width)
        left, left_off = _foot(rows.left_ring, rows.left, rows.middle, heading, width)
        right, right_off = _foot(rows.right_ring, rows.right, rows.middle, heading, width)
        one, other = rows.left_ring.at(left), rows.right_ring.at(right)
        middle = (one + other) / 2
        moved = np.hypot(*(middle - rows.middle).T)
        sound = (np.maximum(left_off, right_off) < 0.01 * width) & (moved < width / 4) & _apart(one, other, heading)
        if ends_stay and not rows.closed:
            sound[[0, -1]] = False
        rows = replace(
            rows,
            middle=np.where(sound[:, None], middle, rows.middle),
            left=np.where(sound, left, rows.left),
            right=np.where(sound, right, rows.right),
        )
    return rows


def _apart(one: Floats, other: Floats, heading: Floats) -> Flags:
    """Whether the two feet lie on either hand of the centreline, all on the same."""
    across = one - other
    hand = heading[:, 0] * across[:, 1] - heading[:, 1] * across[:, 0]
    same: Flags = np.sign(hand) == np.sign(np.median(hand))
    return same


def _foot(ring: Curve, start: Floats, middle: Floats, heading: Floats, width: float) -> tuple[Floats, Floats]:
    """Where the line through `middle` square to `heading` meets the ring near `start`: arc lengths, and how far
    (mm along the heading) the last step left it off. Secant steps of a quarter width at most."""
    s, small = start, width / 50
    onward = 1.0 if start[-1] >= start[0] else -1.0
    for _ in range(4):
        here, there = ring.at(s - small), ring.at(s + small)
        off = (((here + there) / 2 - middle) * heading).sum(axis=1)
        slope = ((there - here) * heading).sum(axis=1) / (2 * small)
        across = slope * onward < STEEPEST
        slope = np.where(across, STEEPEST * onward, slope)
        s = s - np.clip(off / slope, -width / 4, width / 4)
    off = np.abs(((ring.at(s) - middle) * heading).sum(axis=1))
    strayed = across | (np.abs(s - start) > 1.5 * width)
    return s, np.where(strayed, np.inf, off)
