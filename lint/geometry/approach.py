"""Where things come near one another: every place, with its gap, how far the two run in, and how long they keep near.

Points that face another area (`lint.geometry.facing`) are gathered into runs along a boundary, runs into places.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.area import HAIR, Area
from lint.geometry.facing import Records, records_of
from lint.values import dataclass

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Whole = NDArray[np.intp]
Point = tuple[float, float]

JOINED = 5.0  # mm: records nearer than this along a boundary belong to one run (over twice the step)
LEVEL = 0.02  # mm: where the gap is greater by no more than this, it is as near as at its nearest
NOWHERE = 1e-8  # mm: a gap so narrow has no direction
MANY = 100  # runs of one pair: two scribbles; each run is then a place of its own


@dataclass(frozen=True, slots=True, kw_only=True)
class Approach:
    """One place where two areas of a list (by index) come near: `gap` in mm (0 where they meet), `into` how far a
    boundary point of one lies inside the other, `between` the nearest points (on the first, on the second), `across`
    the way from one to the other (a unit vector; nothing where they are one), `at` the middle of the nearest stretch,
    `length` how long it is along the first, `spread` how far its points lie from `at` at most, mm. `touches` says that
    the gap is within the touch asked for."""

    first: int
    second: int
    touches: bool
    gap: float
    into: float
    at: Point
    between: tuple[Point, Point]
    across: Point
    length: float
    spread: float


def approaches(areas: Sequence[Area], *, touch: float, reach: float) -> tuple[Approach, ...]:
    """Every place where two of the areas touch (gap at most `touch` mm) or come nearer than `reach` mm without.

    Gaps are those of the areas' own boundary polygons, exact. Places of one pair that lie nearer to one another
    than one and a half times the slenderer one's width are one place (bars that cross meet along both their
    sides). In order of index, then of place, whatever point a boundary begins at.
    """
    if len(areas) < 2:
        return ()
    shapes = np.array([area.shape for area in areas], dtype=object)
    records = records_of(shapes, max(touch, reach))
    thick = _thick(shapes)
    touching = _places(records.where(records.gap <= touch + HAIR), len(areas), thick, None)
    missed = _places(records.where(records.gap < reach - HAIR), len(areas), thick, touch + HAIR)
    found = {(place.first, place.second) for place in (*touching, *missed)}
    inside = [
        _within(areas, a, b)
        for a, b in sorted({(min(pair), max(pair)) for pair in _inner(shapes)})
        if (a, b) not in found
    ]
    return tuple(sorted([*touching, *missed, *inside], key=_rank))


def _rank(place: Approach) -> tuple[int, int, float, float]:
    return place.first, place.second, round(place.at[0], 1), round(place.at[1], 1)


def _inner(shapes: NDArray[np.object_]) -> list[tuple[int, int]]:
    """Every pair, by index, of which a boundary point of the first lies in the second: one may lie wholly inside."""
    xy, which = shapely.get_coordinates(shapes, return_index=True)
    owner, first = np.unique(which, return_index=True)
    points = np.asarray(shapely.points(xy[first]), dtype=object)
    outer, inner = shapely.STRtree(points).query(shapes, predicate="intersects")
    return [(i, j) for i, j in zip(owner[inner].tolist(), outer.tolist(), strict=True) if i != j]


def widths(areas: Sequence[Area]) -> tuple[float, ...]:
    """The width of each slender area, mm: its size over half its outline."""
    return tuple(_thick(np.array([area.shape for area in areas], dtype=object)).tolist()) if areas else ()


def _thick(shapes: NDArray[np.object_]) -> Floats:
    thick: Floats = 2 * shapely.area(shapes) / np.maximum(shapely.length(shapes), 1e-9)
    return thick


@dataclass(frozen=True, slots=True, eq=False)
class _Run:
    """Records that follow one another along a boundary: which, the smallest gap, and the box of their own points."""

    rows: slice
    lowest: float
    left: float
    top: float
    right: float
    bottom: float

    def farthest(self, at: complex) -> float:
        """How far the box goes from a point, mm."""
        return hypot(max(at.real - self.left, self.right - at.real), max(at.imag - self.top, self.bottom - at.imag))

    def far(self, other: _Run, by: float) -> bool:
        """Whether the boxes alone show that the two lie farther apart than `by` mm."""
        across = max(self.left - other.right, other.left - self.right)
        return max(across, self.top - other.bottom, other.top - self.bottom) > by


def _places(records: Records, count: int, thick: Floats, over: float | None) -> list[Approach]:
    """Runs of records along a boundary, those of one pair that lie together joined into one place each; with `over`
    only the places that come no nearer than that."""
    by_pair: dict[int, list[_Run]] = {}
    for run in _runs(records):
        by_pair.setdefault(int(records.pair[run.rows.start]), []).append(run)
    places = []
    for pair, mine in by_pair.items():
        if over is not None and all(run.lowest <= over for run in mine):
            continue
        a, b = divmod(pair, count)
        link = 1.5 * float(min(thick[a], thick[b]))
        groups = [mine] if len(mine) == 1 else _together(records, mine, link)
        if over is not None:
            groups = [group for group in groups if all(run.lowest > over for run in group)]
        places += [_place(records, group, a, b, over is None) for group in groups]
    return places


def _runs(records: Records) -> list[_Run]:
    if not len(records.pair):
        return []
    pair, place = records.pair, records.place
    apart = (pair[1:] != pair[:-1]) | (place[1:] - place[:-1] > JOINED)
    starts = np.concatenate([[0], np.flatnonzero(apart) + 1])
    lowest = np.minimum.reduceat(records.gap, starts).tolist()
    x, y = records.own.real, records.own.imag
    box = (ufunc.reduceat(along, starts).tolist() for ufunc in (np.minimum, np.maximum) for along in (x, y))
    rows = map(slice, starts.tolist(), [*starts[1:].tolist(), len(pair)])
    return [_Run(*each) for each in zip(rows, lowest, *box, strict=True)]


def _together(records: Records, runs: list[_Run], link: float) -> list[list[_Run]]:
    """Runs in groups: those whose points come within `link` mm of one another are one place."""
    if len(runs) > MANY:
        return [[run] for run in runs]
    groups: list[list[_Run]] = []
    for run in runs:
        near = [g for g in groups if any(_near(records, run, other, link) for other in g)]
        groups = [g for g in groups if not any(g is n for n in near)]
        groups.append([run for g in near for run in g] + [run])
    return groups


def _near(records: Records, a: _Run, b: _Run, link: float) -> bool:
    if a.far(b, link):
        return False
    # Every run is sampled: whole, two long runs side by side would take a table of millions.
    some, others = (records.own[run.rows][:: 1 + (run.rows.stop - run.rows.start) // 128] for run in (a, b))
    return bool(np.abs(some[:, None] - others).min() <= link)


def _place(records: Records, runs: list[_Run], first: int, second: int, touches: bool) -> Approach:
    best = min(runs, key=lambda run: run.lowest)
    gap, place = records.gap[best.rows], records.place[best.rows]
    own, other = records.own[best.rows], records.other[best.rows]
    at = complex(np.interp(_middle(gap, place, best.lowest + LEVEL), place, (own + other) / 2))
    nearest = int(gap.argmin())
    return Approach(
        first=first,
        second=second,
        touches=touches,
        gap=max(best.lowest, 0.0),
        into=max(-best.lowest, 0.0),
        at=_point(at),
        between=(_point(own[nearest]), _point(other[nearest])),
        across=_unit(other[nearest] - own[nearest]),
        length=max(float(records.place[run.rows.stop - 1] - records.place[run.rows.start]) for run in runs),
        spread=max(run.farthest(at) for run in runs),
    )


def _middle(gap: Floats, place: Floats, level: float) -> float:
    """The middle of the stretch over which the gap is under a level, both along the boundary, mm."""
    under = np.flatnonzero(gap <= level)
    first, last = int(under[0]), int(under[-1])
    return (_reached(gap, place, level, first, max(first - 1, 0))
            + _reached(gap, place, level, last, min(last + 1, len(gap) - 1))) / 2  # fmt: skip


def _reached(gap: Floats, place: Floats, level: float, within: int, beyond: int) -> float:
    """Where the gap reaches the level between a record under it and the next one beyond."""
    here, rise = float(place[within]), float(gap[beyond] - gap[within])
    return here + float(place[beyond] - here) * float(level - gap[within]) / rise if rise > 0 else here


def _unit(way: complex) -> Point:
    """The direction of a vector, which rounding leaves none to where it is very short."""
    return _point(way / abs(way)) if abs(way) > NOWHERE else (0.0, 0.0)


def _point(z: complex) -> Point:
    return float(z.real), float(z.imag)


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
        across=(0.0, 0.0),
        length=into,
        spread=max(right - left, bottom - top),
    )
