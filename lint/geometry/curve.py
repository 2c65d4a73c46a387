"""A curve in the plane as points at a stated accuracy, with its arc length."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from lint.values import dataclass

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

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
        x, y = self.points.T  # one by one, for numpy is slow along short rows
        return float(x.min()), float(y.min()), float(x.max()), float(y.max())

    @property
    def enclosed(self) -> float:
        """What a closed curve that does not cross itself encloses, mm2 (the shoelace formula)."""
        away = self.path - self.path[0]
        return abs(float((away[:-1].conj() * away[1:]).imag.sum())) / 2

    @property
    def run(self) -> Floats:
        """The points in order, the first repeated at the end of a closed curve: one for each station. mm."""
        return np.concatenate([self.points, self.points[:1]]) if self.closed else self.points

    @property
    def path(self) -> Complexes:
        """The run as complex numbers x + iy, which numpy works sooner than rows of two."""
        return as_complex(self.run)

    def at(self, s: Floats | float) -> Floats:
        """Points at arc lengths `s` (mm): shape (m, 2), or (2,) for one number. Closed curves wrap, open ones
        stop at their ends."""
        points: Complexes = np.asarray(np.interp(self._placed(s), self.stations, self.path))
        return points[..., None].view(np.float64)

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
        units: Complexes = np.asarray(np.exp(1j * heading))
        return units[..., None].view(np.float64)

    def nearest(self, point: Floats | tuple[float, float]) -> tuple[float, float]:
        """(arc length, distance) of the curve's nearest place to `point`, mm."""
        path, lengths = self.path, self.stations[1:] - self.stations[:-1]
        ways = (path[1:] - path[:-1]) * (1 / lengths)  # a product, for numpy is slow to divide complex numbers
        away = complex(point[0], point[1]) - path[:-1]
        along = np.minimum(np.maximum((away * ways.conj()).real, 0.0), lengths)
        far = np.abs(away - along * ways)
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
        ends = self.at(np.array([start, end]))
        return curve(np.concatenate([ends[:1], self.points[inside], ends[1:]]))

    def _wrapped_piece(self, start: float, end: float) -> Curve:
        whole = self.length
        if end <= start:
            end += whole * np.ceil((start - end) / whole + 1e-12)
        first = np.floor(start / whole) * whole
        start, end = start - first, min(end, start + whole) - first
        stations = np.concatenate([self.stations[:-1], self.stations[:-1] + whole])
        inside = (stations > start) & (stations < end)
        points = np.concatenate([self.points, self.points])[inside]
        ends = self.at(np.array([start, end]))
        return curve(np.concatenate([ends[:1], points, ends[1:]]))

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
            return np.minimum(np.maximum(where, 0.0), self.length)
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


def curves(runs: Floats, stops: NDArray[np.int64], closed: NDArray[np.bool_]) -> list[Curve]:
    """`curve` of each of many runs of points that lie one after the other in `runs` (n, 2) and end before `stops`; a
    closed one has its first point again at its end."""
    runs, starts = np.ascontiguousarray(runs), np.concatenate([[0], stops[:-1]])
    steps = np.concatenate([[0.0], _steps(runs, False)])
    steps[starts] = np.inf
    apart = np.minimum.reduceat(steps, starts) > SAME_POINT
    steps[starts] = 0.0
    made = []
    for start, stop, shut, sound in zip(starts.tolist(), stops.tolist(), closed.tolist(), apart.tolist(), strict=True):
        points = runs[start : stop - shut]
        made.append(Curve(points, shut, steps[start:stop].cumsum()) if sound else curve(points, shut))
    return made


def _distinct(points: Floats, closed: bool) -> Floats:
    """The points less those on the one before; of a closed curve, less the last ones too that lie on the first."""
    points = points[np.concatenate([[True], _steps(points, False) > SAME_POINT])]
    while closed and len(points) > 1 and np.hypot(*(points[-1] - points[0])) <= SAME_POINT:
        points = points[:-1]
    return points


def _steps(points: Floats, closed: bool) -> Floats:
    run = np.concatenate([points, points[:1]]) if closed else points
    path = as_complex(run)
    steps: Floats = np.abs(path[1:] - path[:-1])
    return steps


def as_complex(points: Floats) -> Complexes:
    """Points (n, 2) as complex numbers x + iy (n,)."""
    return np.ascontiguousarray(points, dtype=np.float64).view(np.complex128)[:, 0]


def dot(a: Floats, b: Floats) -> Floats:
    """The products of vectors along the last axis, of two components each (a sum along so short an axis is slow)."""
    product: Floats = a[..., 0] * b[..., 0] + a[..., 1] * b[..., 1]
    return product


def vertex_turns(line: Curve) -> Floats:
    """Signed turn at each vertex in degrees, positive clockwise on the page (y down): shape (n - 2,) of the inner
    vertices of an open curve, (n,) of all vertices of a closed one, from its first point on."""
    turns: Floats = np.degrees(_turns(line.path[1:] - line.path[:-1], line.closed))
    return turns


def _turns(chords: Complexes, closed: bool) -> Floats:
    """Signed turn from each chord to the next, radians; of a closed curve first from the last chord to the first."""
    before, after = (chords[np.arange(len(chords)) - 1], chords) if closed else (chords[:-1], chords[1:])
    bend = after * before.conj()
    turns: Floats = np.arctan2(bend.imag, bend.real)
    return turns


def _headings(line: Curve) -> tuple[Floats, Floats]:
    """Direction at the start and at the end of each chord, radians, near the chord's own."""
    chords, lengths = line.path[1:] - line.path[:-1], line.stations[1:] - line.stations[:-1]
    own = np.arctan2(chords.imag, chords.real)
    if len(own) == 1:
        return own, own
    turns = _turns(chords, line.closed)
    turns = np.where(np.abs(turns) > math.radians(CORNER), 0.0, turns)
    here, before = (lengths, lengths[np.arange(len(own)) - 1]) if line.closed else (lengths[1:], lengths[:-1])
    lean = turns * here / (here + before)  # at the start of a chord, towards the chord before it
    rise = turns - lean
    if line.closed:
        return own - lean, own + np.concatenate([rise[1:], rise[:1]])
    return own - np.concatenate([rise[:1], lean]), own + np.concatenate([rise, lean[-1:]])
