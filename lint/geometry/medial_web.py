"""An area's inside as triangles whose corners lie on its edge: what its medial axis is read from.

The Delaunay triangles of points along the edge lie wholly inside or outside once every step of the edge is one
of their sides; those inside form strips where the area is a strip, and fork where it forks.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.curve import Curve, dot
from lint.values import dataclass

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

# The most points set on the edge of one area: 1,000 bar widths of length at four points a width. Beyond it the
# steps grow; more would only let a hostile outline take longer.
MOST_POINTS = 8192

# Of points in long even rows the geometry library sometimes finds no triangles, by how the rows lie to its axes; then
# all points are turned by so much (radians) and tried again.
TURNED = (0.0, 0.7, 1.9)

# A vertex where the edge turns more than this (degrees) over an eighth of the bar's width to either side is a corner.
CORNER = 30.0


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Ring:
    """A closed curve laid out for many look-ups: stations (mm) and x + iy of its points, the first again at the end."""

    stations: Floats
    run: Complexes

    @property
    def length(self) -> float:
        """mm."""
        return float(self.stations[-1])

    def at(self, s: Floats) -> Floats:
        """Points (n, 2) at arc lengths `s` (n,), which may run on past the start either way."""
        points: Floats = np.interp(np.mod(s, self.length), self.stations, self.run).view(np.float64).reshape(-1, 2)
        return points


def ring_of(closed: Curve) -> Ring:
    """A closed curve as a ring."""
    return Ring(stations=closed.stations, run=closed.run @ np.array([1.0, 1.0j]))


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class EdgePoints:
    """Points on an area's edge: which ring, where on it (arc length, mm), the point, whether the edge has a
    corner there, and the index of the next point of the same ring."""

    ring: Ints
    s: Floats
    points: Floats
    corner: Flags
    after: Ints


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Web:
    """The triangles inside. `corners` (n, 3) are indices of edge points; `next_to[t, k]` is the triangle over the
    side from corner k to corner k + 1 of triangle t, or -1 where that side is a step of the edge."""

    edge: EdgePoints
    corners: Ints
    next_to: Ints


def edge_points(rings: Sequence[Ring], step: float, width: float) -> EdgePoints:
    """Points at most `step` mm apart along closed rings, every corner of a bar of `width` mm among them."""
    whole = sum(ring.length for ring in rings)
    step = max(step, whole / (MOST_POINTS / 2))
    spread = [_spread(ring, step, _corner_stations(ring, width / 8)) for ring in rings]
    return _joined(rings, [s for s, _ in spread], [corner for _, corner in spread])


def woven(rings: Sequence[Ring], edge: EdgePoints) -> Web | None:
    """The web of an area with these rings; None where its edge comes too near to itself to be told apart.

    A step of the edge that is no side of a Delaunay triangle (two turns lie closer than the steps are long) is
    halved until it is one.
    """
    for _ in range(9):
        triangles = _triangles(edge.points)
        if triangles is None:
            return None
        missing = _missing_steps(edge, triangles)
        if not missing.any():
            return _inside(edge, triangles)
        if len(edge.s) + int(missing.sum()) > 2 * MOST_POINTS:
            return None
        edge = _halved(rings, edge, missing)
    return None


def _corner_stations(ring: Ring, reach: float) -> Floats:
    """Stations of the vertices where the edge turns a corner; of neighbours within `reach` mm the sharpest.

    Even stations are tried first, for most of a fine outline's vertices are nowhere near a corner.
    """
    tried = np.linspace(0.0, ring.length, int(min(2 * ring.length / reach, 4 * MOST_POINTS)) + 3)
    apart = float(tried[1])
    near = tried[_turns(ring, tried, reach + apart) > CORNER]
    s = ring.stations[:-1]
    if len(near) == 0:
        return np.zeros(0)
    place = np.clip(np.searchsorted(near, s), 1, max(len(near) - 1, 1))
    off = np.minimum(np.abs(s - near[place - 1]), np.abs(s - near[np.minimum(place, len(near) - 1)]))
    s = s[np.minimum(off, ring.length - off) <= apart]
    turn = _turns(ring, s, reach)
    s, turn = s[turn > CORNER], turn[turn > CORNER]
    if len(s) == 0:
        return s
    first = np.flatnonzero(np.concatenate([[True], np.diff(s) > reach]))
    sharpest = np.repeat(np.maximum.reduceat(turn, first), np.diff(np.append(first, len(s))))
    return s[np.flatnonzero(turn == sharpest)]


def _turns(ring: Ring, s: Floats, reach: float) -> Floats:
    """Degrees between the chords over `reach` mm before and after each station."""
    here = ring.at(s)
    one, other = here - ring.at(s - reach), ring.at(s + reach) - here
    cross = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]
    turns: Floats = np.abs(np.degrees(np.arctan2(cross, dot(one, other))))
    return turns


def _spread(ring: Ring, step: float, corners: Floats) -> tuple[Floats, Flags]:
    """Stations in equal steps between the corners, three on a ring at least."""
    knots = corners if len(corners) else np.zeros(1)
    gaps = np.diff(np.append(knots, knots[0] + ring.length))
    steps = np.maximum(np.ceil(gaps / step - 1e-9), 3 if len(knots) < 3 else 1).astype(np.int64)
    first = np.repeat(np.cumsum(steps) - steps, steps)
    share = np.arange(len(first)) - first
    s = np.repeat(knots, steps) + share * np.repeat(gaps / steps, steps)
    return s, (share == 0) & (len(corners) > 0)


def _joined(rings: Sequence[Ring], stations: list[Floats], corners: list[Flags]) -> EdgePoints:
    sizes = np.array([len(s) for s in stations])
    first = np.repeat(np.cumsum(sizes) - sizes, sizes)
    own = np.arange(sizes.sum()) - first
    return EdgePoints(
        ring=np.repeat(np.arange(len(rings)), sizes),
        s=np.concatenate(stations),
        points=np.concatenate([ring.at(s) for ring, s in zip(rings, stations, strict=True)]),
        corner=np.concatenate(corners),
        after=first + (own + 1) % np.repeat(sizes, sizes),
    )


def _halved(rings: Sequence[Ring], edge: EdgePoints, missing: Flags) -> EdgePoints:
    stations, corners = [], []
    for number, ring in enumerate(rings):
        own = edge.ring == number
        s, corner, cut = edge.s[own], edge.corner[own], missing[own]
        gaps = np.diff(np.append(s, s[0] + ring.length))
        where = np.flatnonzero(cut) + 1
        stations.append(np.insert(s, where, (s + gaps / 2)[cut]))
        corners.append(np.insert(corner, where, False))
    return _joined(rings, stations, corners)


def _triangles(points: Floats) -> Ints | None:
    """Delaunay triangles as indices (n, 3), all turning the same way; None where two points are one."""
    for turn in TURNED:
        corners = _corners_of(points @ np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]]))
        if corners is not None:
            break
    else:
        return None
    a, b, c = (points[corners[:, k]] for k in range(3))
    cross = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    corners[cross < 0] = corners[cross < 0][:, ::-1]
    return corners


def _corners_of(points: Floats) -> Ints | None:
    """Delaunay triangles as indices (n, 3); None where two points are one, and where none are found."""
    z = points[:, 0] + 1j * points[:, 1]
    order = np.argsort(z, kind="stable")
    ordered = z[order]
    if (ordered[1:] == ordered[:-1]).any():
        return None
    try:
        made = shapely.delaunay_triangles(shapely.MultiPoint(points))
    except shapely.GEOSException:
        return None
    xy = shapely.get_coordinates(made).reshape(-1, 4, 2)[:, :3]
    return order[np.searchsorted(ordered, xy[..., 0] + 1j * xy[..., 1])] if len(xy) else None


def _sides(corners: Ints, points: int) -> Ints:
    """A number for each side of each triangle (n, 3), the same from both triangles that share it."""
    other = np.roll(corners, -1, axis=1)
    sides: Ints = np.minimum(corners, other) * points + np.maximum(corners, other)
    return sides


def _steps(edge: EdgePoints) -> Ints:
    own = np.arange(len(edge.s))
    steps: Ints = np.minimum(own, edge.after) * len(own) + np.maximum(own, edge.after)
    return steps


def _missing_steps(edge: EdgePoints, triangles: Ints) -> Flags:
    missing: Flags = ~np.isin(_steps(edge), _sides(triangles, len(edge.s)))
    return missing


def _inside(edge: EdgePoints, triangles: Ints) -> Web:
    middles = edge.points[triangles].mean(axis=1)
    corners = triangles[_within(edge, middles)]
    sides = _sides(corners, len(edge.s)).ravel()
    order = np.argsort(sides, kind="stable")
    pair = np.flatnonzero(sides[order][1:] == sides[order][:-1])
    one, other = order[pair], order[pair + 1]
    next_to = np.full(sides.shape, -1, dtype=np.int64)
    next_to[one], next_to[other] = other // 3, one // 3
    next_to[np.isin(sides, _steps(edge))] = -1
    return Web(edge=edge, corners=corners, next_to=next_to.reshape(-1, 3))


def _within(edge: EdgePoints, points: Floats) -> Flags:
    rings = [edge.points[edge.ring == number] for number in range(int(edge.ring.max()) + 1)]
    polygon = shapely.Polygon(rings[0], rings[1:])
    shapely.prepare(polygon)
    within: Flags = shapely.contains_xy(polygon, points)
    return within
