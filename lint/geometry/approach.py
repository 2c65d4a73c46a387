"""Where things come near one another: every place, with its gap, how far the two run in, and how long they keep near.

Boundaries are cut into short chunks whose boxes go into one spatial index; distances are then worked only
between chunks that come within reach, so that the work grows with the number of near places.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.area import HAIR, Area
from lint.geometry.chunks import Chunks, chunked, near_records
from lint.geometry.curve import dot
from lint.values import dataclass

Floats = NDArray[np.float64]
Whole = NDArray[np.intp]
Point = tuple[float, float]

STEP = 2.0  # mm between boundary points: a coarser step could join two places, a finer one only costs time
MOST = 50_000  # steps round one area: 100 m of boundary; a longer one is a stray node, and takes longer steps
JOINED = 5.0  # mm: records nearer than this along a boundary belong to one run (over twice the step)
MANY = 100  # runs of one pair: two scribbles; each run is then a place of its own


@dataclass(frozen=True, slots=True, kw_only=True)
class Approach:
    """One place where two areas of a list (by index) come near: `gap` in mm (0 where they meet), `into` how far a
    boundary point of one lies inside the other, `between` the nearest points (on the first, on the second), `at`
    the middle of the nearest stretch, `length` how long it is along the first, `spread` how far its points lie from
    `at`, mm. `touches` says that the gap is within the touch asked for."""

    first: int
    second: int
    touches: bool
    gap: float
    into: float
    at: Point
    between: tuple[Point, Point]
    length: float
    spread: float


@dataclass(frozen=True, slots=True, eq=False)
class _Records:
    """Points of one boundary with the nearest point of the other: one row each, sorted by pair and by place."""

    pair: Whole
    place: Floats  # along the boundary of the first, mm
    own: Floats  # on the first (n, 2)
    other: Floats  # on the second (n, 2)
    gap: Floats  # negative inside

    def where(self, mask: NDArray[np.bool_]) -> _Records:
        return _Records(self.pair[mask], self.place[mask], self.own[mask], self.other[mask], self.gap[mask])


def approaches(areas: Sequence[Area], *, touch: float, reach: float) -> tuple[Approach, ...]:
    """Every place where two of the areas touch (gap at most `touch` mm) or come nearer than `reach` mm without.

    Gaps are those of the areas' own boundary polygons, exact. Places of one pair that lie nearer to one another
    than one and a half times the slenderer one's width are one place (bars that cross meet along both their
    sides). In order of index, then along the first one's boundary.
    """
    if len(areas) < 2:
        return ()
    shapes = np.array([area.shape for area in areas], dtype=object)
    records = _records(shapes, max(touch, reach))
    thick = _thick(shapes)
    touching = _places(records.where(records.gap <= touch + HAIR), len(areas), thick, None)
    missed = _places(records.where(records.gap < reach - HAIR), len(areas), thick, touch + HAIR)
    found = {(place.first, place.second) for place in (*touching, *missed)}
    inside = [
        _within(areas, a, b)
        for a, b in sorted({(min(pair), max(pair)) for pair in _inner(shapes)})
        if (a, b) not in found
    ]
    return tuple(sorted([*touching, *missed, *inside], key=lambda place: (place.first, place.second)))


def _inner(shapes: NDArray[np.object_]) -> list[tuple[int, int]]:
    """Every pair, by index, of which a boundary point of the first lies in the second: one may lie wholly inside."""
    xy, which = shapely.get_coordinates(shapes, return_index=True)
    owner, first = np.unique(which, return_index=True)
    points = np.asarray(shapely.points(xy[first]), dtype=object)
    a, b = shapely.STRtree(shapes).query(points, predicate="intersects")
    return [(i, j) for i, j in zip(owner[a].tolist(), b.tolist(), strict=True) if i != j]


def widths(areas: Sequence[Area]) -> tuple[float, ...]:
    """The width of each slender area, mm: its size over half its outline."""
    return tuple(_thick(np.array([area.shape for area in areas], dtype=object)).tolist()) if areas else ()


def _thick(shapes: NDArray[np.object_]) -> Floats:
    thick: Floats = 2 * shapely.area(shapes) / np.maximum(shapely.length(shapes), 1e-9)
    return thick


def _records(shapes: NDArray[np.object_], reach: float) -> _Records:
    """Every boundary point with the nearest point of each other area within reach."""
    chunks = _boundaries(shapes)
    near = near_records(chunks, reach, lambda a, b: chunks.owner[a] != chunks.owner[b])
    mine, theirs = chunks.owner_of_point(near.point), chunks.owner_of_point(near.segment)
    gap = near.distance * np.where(_inside(shapes, chunks.xy[near.point], mine, theirs), -1.0, 1.0)
    swap = mine > theirs
    own = np.where(swap[:, None], near.foot, chunks.xy[near.point])
    other = np.where(swap[:, None], chunks.xy[near.point], near.foot)
    place = np.where(swap, near.foot_station, chunks.station[near.point])
    pair = np.minimum(mine, theirs) * len(shapes) + np.maximum(mine, theirs)
    order = np.lexsort((place, pair))
    return _Records(pair[order], place[order], own[order], other[order], gap[order])


def _boundaries(shapes: NDArray[np.object_]) -> Chunks:
    boundaries = shapely.boundary(shapes)
    lines = shapely.segmentize(boundaries, np.maximum(STEP, shapely.length(boundaries) / MOST))
    rings, owner = shapely.get_parts(lines, return_index=True)
    xy, ring = shapely.get_coordinates(rings, return_index=True)
    return chunked(xy, ring, owner[ring])


def _inside(shapes: NDArray[np.object_], xy: Floats, mine: Whole, theirs: Whole) -> NDArray[np.bool_]:
    """Whether each point lies inside the other area. Asked only where the two areas meet at all."""
    low, high = np.minimum(mine, theirs), np.maximum(mine, theirs)
    pairs, which = np.unique(low * len(shapes) + high, return_inverse=True)
    a, b = pairs // len(shapes), pairs % len(shapes)
    shapely.prepare(shapes[np.flatnonzero(np.bincount(theirs))])
    meet = shapely.intersects(shapes[a], shapes[b])[which]
    inside = np.zeros(len(xy), dtype=bool)
    inside[meet] = shapely.contains_xy(shapes[theirs[meet]], xy[meet, 0], xy[meet, 1])
    return inside


def _places(records: _Records, count: int, thick: Floats, over: float | None) -> list[Approach]:
    """Runs of records along a boundary, those of one pair that lie together joined into one place each; with `over`
    only the places that come no nearer than that."""
    if not len(records.pair):
        return []
    apart = (np.diff(records.pair) != 0) | (np.diff(records.place) > JOINED)
    starts = np.concatenate([[0], np.flatnonzero(apart) + 1])
    lowest = np.minimum.reduceat(records.gap, starts)
    runs = [slice(a, b) for a, b in zip(starts, [*starts[1:], len(records.pair)], strict=True)]
    touched = set() if over is None else set(records.pair[starts[lowest <= over]].tolist())
    by_pair: dict[int, list[slice]] = {}
    for run in runs:
        by_pair.setdefault(int(records.pair[run.start]), []).append(run)
    places = []
    for pair, mine in by_pair.items():
        a, b = divmod(pair, count)
        link = 1.5 * float(min(thick[a], thick[b]))
        groups = [mine] if len(mine) == 1 else _together(records, mine, link)
        if pair in touched:
            groups = [group for group in groups if min(records.gap[run].min() for run in group) > float(over or 0.0)]
        places += [_place(records, group, a, b, over is None) for group in groups]
    return places


def _together(records: _Records, runs: list[slice], link: float) -> list[list[slice]]:
    """Runs in groups: those whose points come within `link` mm of one another are one place."""
    if len(runs) > MANY:
        return [[run] for run in runs]
    groups: list[list[slice]] = []
    for run in runs:
        near = [g for g in groups if any(_closest(records, run, other) <= link for other in g)]
        groups = [g for g in groups if not any(g is n for n in near)]
        groups.append([run for g in near for run in g] + [run])
    return groups


def _closest(records: _Records, a: slice, b: slice) -> float:
    # Every run is sampled: whole, two long runs side by side would take a table of millions.
    some, others = (records.own[run][:: 1 + (run.stop - run.start) // 128] for run in (a, b))
    difference = some[:, None, :] - others[None, :, :]
    return float(np.sqrt(dot(difference, difference).min()))


def _place(records: _Records, runs: list[slice], first: int, second: int, touches: bool) -> Approach:
    rows = np.concatenate([np.arange(run.start, run.stop) for run in runs])
    gaps = records.gap[rows]
    nearest = rows[int(np.argmin(gaps))]
    level = float(gaps.min()) + 0.02
    best = max(runs, key=lambda run: -float(records.gap[run].min()))
    stretch = np.arange(best.start, best.stop)[records.gap[best] <= level]
    middle = stretch[int(np.argmin(np.abs(records.place[stretch] - records.place[stretch[[0, -1]]].mean())))]
    x, y = (records.own[middle] + records.other[middle]) / 2
    length = max(float(records.place[run.stop - 1] - records.place[run.start]) for run in runs)
    a, b = records.own[nearest], records.other[nearest]
    return Approach(
        first=first,
        second=second,
        touches=touches,
        gap=max(float(gaps.min()), 0.0),
        into=max(-float(gaps.min()), 0.0),
        at=(float(x), float(y)),
        between=((float(a[0]), float(a[1])), (float(b[0]), float(b[1]))),
        length=length,
        spread=float(np.hypot(records.own[rows, 0] - x, records.own[rows, 1] - y).max()),
    )


def _within(areas: Sequence[Area], first: int, second: int) -> Approach:
    """One area so deep in another that their boundaries are out of reach of one another."""
    smaller = min(areas[first], areas[second], key=lambda area: area.size)
    at = smaller.inside_point
    into = smaller.depth()
    left, top, right, bottom = smaller.extent
    return Approach(
        first=first,
        second=second,
        touches=True,
        gap=0.0,
        into=into,
        at=at,
        between=(at, at),
        length=into,
        spread=max(right - left, bottom - top),
    )
