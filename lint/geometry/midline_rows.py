"""The two sides of a bar, in step: a row of chords across it, each square to the centreline."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import dot
from lint.geometry.medial_way import Way
from lint.geometry.medial_web import EdgePoints, Ring
from lint.values import dataclass

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

# Chords for each bar width of length: at an eye as tight as the bar is wide, chords of the centreline an eighth of
# a width long are 0.07 % short. More would cost time and follow the edge's own unsteadiness.
CHORDS_A_WIDTH = 8

# Where the edge before and after what hangs off beside the way differs by more than this (degrees), the bar turns a
# corner there; by less, it is a burr on a bar that goes on.
EDGE_TURNS = 30.0

# The most rows on one bar: 2,000 bar widths of length at eight a width. Beyond it the steps grow.
MOST_ROWS = 16_384


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Rows:
    """Chords across a bar, one a row, from end to end: the middle (n, 2), where its two feet stand on the rings
    of the left and right side (arc length, mm, running on past a ring's start), and whether the row marks a
    corner of the edge. `closed` rows run round."""

    left_ring: Ring
    right_ring: Ring
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


def rows_of(rings: tuple[Ring, ...], edge: EdgePoints, way: Way) -> Rows | None:
    """The rows that a way crosses; corners and burrs beside it are swept by a fan of chords, so that a sharp
    corner's centreline is mitred. None where one side of the way does not keep to one ring."""
    rings_met = {int(r) for r in edge.ring[way.left]}, {int(r) for r in edge.ring[way.right]}
    if any(len(met) > 1 for met in rings_met):
        return None
    left, right = _swept(edge, way)
    keeps = (edge.corner[left] & _fresh(left)) | (edge.corner[right] & _fresh(right))
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
        index = np.where(ordinal == 0, side[gate], index)
        swept.append(index if way.closed else np.append(index, side[-1]))
    return swept[0], swept[1]


def _ring_of(edge: EdgePoints, point: int) -> tuple[int, int]:
    own = np.flatnonzero(edge.ring == edge.ring[point])
    return int(own[0]), len(own)


def _steps_along(edge: EdgePoints, side: Ints, closed: bool) -> tuple[int, Ints]:
    """Whether the side runs with its ring (1) or against it (-1), and how many edge points on each step goes.

    What hangs off beside a straight bar (a burr, half a collar) is stepped over in one; only where the edge itself
    turns, at a corner, does the side go from point to point.
    """
    before, after = (side, np.roll(side, -1)) if closed else (side[:-1], side[1:])
    with_ring = int((edge.after[before] == after).sum()) - int((edge.after[after] == before).sum())
    onward = 1 if with_ring >= 0 else -1
    first, size = _ring_of(edge, int(side[0]))
    count = np.mod(onward * (after - before), size)
    for gap in np.flatnonzero(count > 1):
        a, b = int(before[gap]), int(after[gap])
        points = edge.points[[first + (a - first - onward) % size, a, b, first + (b - first + onward) % size]]
        if _turn(points[1] - points[0], points[3] - points[2]) < EDGE_TURNS:
            count[gap] = 1
    return onward, count


def _turn(one: Floats, other: Floats) -> float:
    cross = float(one[0] * other[1] - one[1] * other[0])
    return float(np.degrees(abs(np.arctan2(cross, float(one @ other)))))


def _unwrapped(s: Floats, whole: float) -> Floats:
    return np.unwrap(s, period=whole)


def evenly(rows: Rows, width: float) -> Rows:
    """Rows in equal steps along the bar (`CHORDS_A_WIDTH` for each `width` mm), those at corners kept."""
    along = rows.along
    whole = float(along[-1])
    rows = replace(rows, corner=rows.corner & _bends(rows, width))
    step = width / CHORDS_A_WIDTH
    count = int(min(max(np.ceil(whole / step), 8), MOST_ROWS))
    even = np.linspace(0.0, whole, count + 1)[: count if rows.closed else count + 1]
    kept = along[: len(rows.corner)][rows.corner]
    if len(kept):
        place = np.clip(np.searchsorted(kept, even), 1, len(kept)) - 1
        near = np.minimum(np.abs(even - kept[place]), np.abs(even - kept[np.minimum(place + 1, len(kept) - 1)]))
        even = even[(near > step / 2) | (even == 0.0) | (even == whole)]
    where = np.union1d(even, kept)
    return _at(rows, along, where, np.isin(where, kept))


def _bends(rows: Rows, width: float) -> Flags:
    """Whether the bar turns a corner at each row, and not only its edge: by the chords over 3/4 of a width."""
    along = rows.along
    own, middle = along[: len(rows.middle)], run_on(rows)[0]

    def at(s: Floats) -> Floats:
        s = np.mod(s, along[-1]) if rows.closed else s
        return np.column_stack([np.interp(s, along, middle[:, axis]) for axis in (0, 1)])

    one, other = rows.middle - at(own - 0.75 * width), at(own + 0.75 * width) - rows.middle
    cross = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]
    bends: Flags = np.abs(np.degrees(np.arctan2(cross, dot(one, other)))) > EDGE_TURNS
    return bends


def _at(rows: Rows, along: Floats, where: Floats, corner: Flags) -> Rows:
    middle, left, right = run_on(rows)
    placed = np.column_stack([np.interp(where, along, middle[:, axis]) for axis in (0, 1)])
    return replace(
        rows,
        middle=placed,
        left=np.interp(where, along, left),
        right=np.interp(where, along, right),
        corner=corner,
    )


def run_on(rows: Rows) -> tuple[Floats, Floats, Floats]:
    """Middles and feet; of closed rows with the first once more at the end, its feet a lap on."""
    if not rows.closed:
        return rows.middle, rows.left, rows.right
    left = np.append(rows.left, rows.left[0] + _lap(rows.left, rows.left_ring.length))
    right = np.append(rows.right, rows.right[0] + _lap(rows.right, rows.right_ring.length))
    return np.concatenate([rows.middle, rows.middle[:1]]), left, right


def _lap(s: Floats, whole: float) -> float:
    return whole if s[-1] >= s[0] else -whole


def from_row(rows: Rows, first: int) -> Rows:
    """Closed rows begun at another row."""
    _, left, right = run_on(rows)
    behind = slice(0, first)
    return replace(
        rows,
        middle=np.roll(rows.middle, -first, axis=0),
        left=np.concatenate([rows.left[first:], rows.left[behind] + left[-1] - left[0]]),
        right=np.concatenate([rows.right[first:], rows.right[behind] + right[-1] - right[0]]),
        corner=np.roll(rows.corner, -first),
    )
