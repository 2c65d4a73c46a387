"""A curve in the plane as points at a stated accuracy, with its arc length."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lint.values import dataclass

Floats = NDArray[np.float64]

# Neighbours nearer than this (mm) are one point: a chord so short has no direction that means anything.
SAME_POINT = 1e-9

# A vertex that turns more than this (degrees) is a corner: the tangent jumps there. Below it the vertex is a sample
# of a smooth curve. Smaller would roughen the tangents of coarse polylines, larger would round off drawn corners.
CORNER = 30.0


@dataclass(frozen=True, slots=True, eq=False)
class Curve:
    """`points` has shape (n, 2), mm, n >= 2, no two neighbours equal; a closed curve does not repeat its first.

    Built by `curve(points, closed)`, which drops repeats. Arc length is measured along the chords.
    """

    points: Floats
    closed: bool
    stations: Floats  # arc length at each point, mm, from 0; closed: one more entry, the whole length

    @property
    def length(self) -> float:
        """Length in mm, the closing chord included."""
        return float(self.stations[-1])

    @property
    def extent(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom in mm."""
        low, high = self.points.min(axis=0), self.points.max(axis=0)
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])

    @property
    def enclosed(self) -> float:
        """What a closed curve that does not cross itself encloses, mm2 (the shoelace formula)."""
        x, y = (self.run - self.points[0]).T
        return abs(float((x[:-1] * y[1:] - y[:-1] * x[1:]).sum())) / 2

    @property
    def run(self) -> Floats:
        """The points in order, the first repeated at the end of a closed curve: one for each station. mm."""
        return np.concatenate([self.points, self.points[:1]]) if self.closed else self.points

    def at(self, s: Floats | float) -> Floats:
        """Points at arc lengths `s` (mm): shape (m, 2), or (2,) for one number. Closed curves wrap, open ones
        stop at their ends."""
        where, run = self._placed(s), self.run
        points = np.empty((*where.shape, 2))
        for axis in (0, 1):
            points[..., axis] = np.interp(where, self.stations, run[:, axis])
        return points

    def tangent(self, s: Floats | float) -> Floats:
        """Unit tangents at arc lengths `s` (mm), same shape as `at`.

        The direction runs evenly from point to point, so that the tangents of a flattened curve are those of
        the curve to second order; at a corner (a turn over 30 degrees) it jumps.
        """
        where = self._placed(s)
        start, end = _headings(self)
        chord = np.minimum(np.searchsorted(self.stations, where, side="right") - 1, len(start) - 1)
        share = (where - self.stations[chord]) / (self.stations[chord + 1] - self.stations[chord])
        heading = start[chord] + share * (end - start)[chord]
        return np.stack([np.cos(heading), np.sin(heading)], axis=-1)

    def nearest(self, point: Floats | tuple[float, float]) -> tuple[float, float]:
        """(arc length, distance) of the curve's nearest place to `point`, mm."""
        run, lengths = self.run, self.stations[1:] - self.stations[:-1]
        chords = run[1:] - run[:-1]
        from_start = np.asarray(point, dtype=np.float64) - run[:-1]
        along = np.clip(dot(from_start, chords) / lengths, 0, lengths)
        gaps = from_start - chords * (along / lengths)[:, None]
        far = np.hypot(gaps[:, 0], gaps[:, 1])
        best = int(far.argmin())
        return float(self.stations[best] + along[best]), float(far[best])

    def piece(self, start: float, end: float) -> Curve:
        """The stretch from arc length `start` to `end` (mm) as an open curve.

        On a closed curve it may run over the first point (`end` under `start`, or over the length). Raises
        ValueError where nothing is left between the two.
        """
        if self.closed:
            return self._wrapped_piece(start, end)
        start, end = max(start, 0.0), min(end, self.length)
        inside = (self.stations > start) & (self.stations < end)
        return curve(np.concatenate([self.at(np.array([start])), self.points[inside], self.at(np.array([end]))]))

    def _wrapped_piece(self, start: float, end: float) -> Curve:
        whole = self.length
        if end <= start:
            end += whole * np.ceil((start - end) / whole + 1e-12)
        first = np.floor(start / whole) * whole
        start, end = start - first, min(end, start + whole) - first
        stations = np.concatenate([self.stations[:-1], self.stations[:-1] + whole])
        inside = (stations > start) & (stations < end)
        points = np.concatenate([self.points, self.points])[inside]
        return curve(np.concatenate([self.at(np.array([start])), points, self.at(np.array([end]))]))

    def reversed(self) -> Curve:
        """The same curve run the other way; a closed one keeps its first point."""
        points = np.roll(self.points[::-1], 1, axis=0) if self.closed else self.points[::-1]
        return Curve(np.ascontiguousarray(points), self.closed, self.length - self.stations[::-1])

    def resampled(self, step: float) -> Curve:
        """Points on equal steps of arc length, the step at most `step` mm, both ends kept."""
        steps = max(int(np.ceil(self.length / step - 1e-9)), 3 if self.closed else 1)
        points = self.at(np.linspace(0.0, self.length, steps + 1))
        return curve(points[:-1] if self.closed else points, self.closed)

    def _placed(self, s: Floats | float) -> Floats:
        where = np.asarray(s, dtype=np.float64)
        if not self.closed:
            return np.clip(where, 0.0, self.length)
        on_end = where == self.length
        return np.where(on_end, where, np.mod(where, self.length))


def curve(points: Floats, closed: bool = False) -> Curve:
    """A curve through `points` (n, 2), repeated neighbours dropped.

    Raises ValueError where fewer than two distinct points remain or a number is not finite.
    """
    points = np.ascontiguousarray(points, dtype=np.float64).reshape(-1, 2)
    if not np.isfinite(points).all():
        raise ValueError("a curve has a coordinate that is not a finite number")
    steps = _steps(points, closed)
    if len(steps) and steps.min() <= SAME_POINT:
        points = _distinct(points, closed)
        steps = _steps(points, closed)
    if len(points) < 2:
        raise ValueError("a curve needs two points that are apart")
    return Curve(points, closed, np.concatenate([[0.0], np.cumsum(steps)]))


def _distinct(points: Floats, closed: bool) -> Floats:
    """The points less those on the one before; of a closed curve, less the last ones too that lie on the first."""
    points = points[np.concatenate([[True], _steps(points, False) > SAME_POINT])]
    while closed and len(points) > 1 and np.hypot(*(points[-1] - points[0])) <= SAME_POINT:
        points = points[:-1]
    return points


def _steps(points: Floats, closed: bool) -> Floats:
    run = np.concatenate([points, points[:1]]) if closed else points
    chords = run[1:] - run[:-1]
    steps: Floats = np.hypot(chords[:, 0], chords[:, 1])
    return steps


def dot(a: Floats, b: Floats) -> Floats:
    """The products of vectors along the last axis, of two components each (a sum along so short an axis is slow)."""
    product: Floats = a[..., 0] * b[..., 0] + a[..., 1] * b[..., 1]
    return product


def vertex_turns(line: Curve) -> Floats:
    """Signed turn at each vertex in degrees, positive clockwise on the page (y down): shape (n - 2,) of the inner
    vertices of an open curve, (n,) of all vertices of a closed one, from its first point on."""
    run = line.run
    chords = run[1:] - run[:-1]
    before, after = (chords[np.arange(len(chords)) - 1], chords) if line.closed else (chords[:-1], chords[1:])
    cross = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    turns: Floats = np.degrees(np.arctan2(cross, dot(before, after)))
    return turns


def _headings(line: Curve) -> tuple[Floats, Floats]:
    """Direction at the start and at the end of each chord, radians, near the chord's own."""
    run = line.run
    chords = run[1:] - run[:-1]
    own = np.arctan2(chords[:, 1], chords[:, 0])
    lengths = line.stations[1:] - line.stations[:-1]
    turns = np.radians(vertex_turns(line))
    turns = np.where(np.abs(turns) > np.radians(CORNER), 0.0, turns)
    if line.closed:
        here, before = lengths, np.roll(lengths, 1)
        lean = turns * here / (here + before)  # at the start of chord i, towards the chord before it
        rise = np.roll(turns * before / (here + before), -1)
        return own - lean, own + rise
    share = lengths[1:] / (lengths[1:] + lengths[:-1])
    lean, rise = turns * share, turns * (1 - share)
    if len(own) == 1:
        return own, own
    return own - np.concatenate([rise[:1], lean]), own + np.concatenate([rise, lean[-1:]])
