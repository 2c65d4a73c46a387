"""Areas of the plane: metal, openings, what two bars share. Shapely lives in this folder and nowhere else."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import cache
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.combined import joined, shared, widened, without
from lint.geometry.curve import Curve, curve
from lint.geometry.inscribed import inscribed
from lint.geometry.rings import filled, filled_singly
from lint.values import dataclass

Floats = NDArray[np.float64]
Point = tuple[float, float]

# How far a chord of a round corner may lie inside the true arc, mm.
SAGITTA = 0.005

# A distance that differs from a limit by no more is at it, mm: the chords of two curves are as far off.
HAIR = 0.01

# A ring no longer than this is a speck that rounding left, and no boundary, mm.
SPECK = 1e-6


@dataclass(frozen=True, slots=True, eq=False)
class Area:
    """A plane area in mm; it may be empty, of several parts, and with holes."""

    shape: Any  # of shapely: a Polygon or a MultiPolygon

    @property
    def size(self) -> float:
        """mm2."""
        return float(self.shape.area)

    @property
    def empty(self) -> bool:
        """True where there is no area at all."""
        return bool(self.shape.is_empty)

    @property
    def extent(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom in mm. Raises ValueError for an empty area, which lies nowhere."""
        self._refuse_empty()
        left, top, right, bottom = self.shape.bounds
        return float(left), float(top), float(right), float(bottom)

    @property
    def parts(self) -> tuple[Area, ...]:
        """The connected parts, largest first."""
        if isinstance(self.shape, shapely.Polygon) and not self.empty:
            return (self,)
        polygons = _polygons(self.shape)
        order = np.argsort(-shapely.area(polygons), kind="stable")
        return tuple(Area(polygon) for polygon in polygons[order])

    @property
    def outer(self) -> tuple[Curve, ...]:
        """The outer boundary of each part, as closed curves, that of the largest part first."""
        return tuple(_ring_curve(part.shape.exterior) for part in self.parts if part.shape.exterior.length > SPECK)

    @property
    def corners(self) -> Floats:
        """The points of the outer boundaries, each once, those of the largest part first: shape (n, 2), mm."""
        return np.concatenate([shapely.get_coordinates(part.shape.exterior)[:-1] for part in self.parts])

    @property
    def holes(self) -> tuple[Curve, ...]:
        """The inner boundaries of all parts, as closed curves."""
        return tuple(_ring_curve(r) for part in self.parts for r in part.shape.interiors if r.length > SPECK)

    @property
    def rings(self) -> tuple[tuple[Point, ...], ...]:
        """All boundary rings as plain points (for a trace), outer first."""
        return tuple(tuple((float(x), float(y)) for x, y in ring.points) for ring in (*self.outer, *self.holes))

    @property
    def inside_point(self) -> Point:
        """A point well inside the area: the middle of about its largest circle. Raises ValueError where empty."""
        self._refuse_empty()
        left, top, right, bottom = self.extent
        found = inscribed([self.shape], 0.05 * max(right - left, bottom - top))
        return float(found[0, 0]), float(found[0, 1])

    def distance(self, other: Area) -> float:
        """Smallest distance between the two, mm; 0 where they touch or overlap. Raises ValueError where one is
        empty."""
        self._refuse_empty()
        other._refuse_empty()
        return float(shapely.distance(self.shape, other.shape))

    def nearest(self, other: Area) -> tuple[Point, Point]:
        """The two points, one on each, where they come nearest (one shared point where they meet). Raises
        ValueError where one is empty."""
        self._refuse_empty()
        other._refuse_empty()
        here, there = shapely.get_coordinates(shapely.shortest_line(self.shape, other.shape))
        return (float(here[0]), float(here[1])), (float(there[0]), float(there[1]))

    def overlap(self, other: Area) -> Area:
        """What both share; touching edges share nothing."""
        return Area(_areal(shared(self.shape, other.shape)))

    def less(self, other: Area) -> Area:
        """This area without the other."""
        return Area(_areal(without(self.shape, other.shape)))

    def grown(self, by: float) -> Area:
        """The area grown by `by` mm all round (shrunk where negative), round corners, sagitta under 0.005 mm.
        Raises ValueError where `by` is not finite."""
        if not math.isfinite(by):
            raise ValueError(f"an area cannot be grown by {by} mm")
        return Area(_areal(widened(self.shape, by, quad_segs=quarter_steps(abs(by)))))

    def shut(self, gap: float) -> Area:
        """The area with gaps and slits up to `gap` mm wide filled in, corners as sharp as they were. Raises ValueError
        where `gap` is not finite or not over 0."""
        if not (np.isfinite(gap) and gap > 0):
            raise ValueError(f"no gap of {gap} mm can be shut")
        grown = widened(self.shape, gap / 2, join_style="mitre")
        return Area(_areal(widened(grown, -gap / 2, join_style="mitre")))

    def holds(self, point: Point) -> bool:
        """True where the point lies in the area or on its edge."""
        return bool(shapely.intersects_xy(self.shape, float(point[0]), float(point[1])))

    def depth(self) -> float:
        """Width of the area across its thinnest overall direction at its widest place: twice the radius of its
        largest circle, mm (how deep one bar runs into another). 0 where empty; within 0.02 mm."""
        return 0.0 if self.empty else float(2 * inscribed([self.shape], 0.01)[0, 2])

    def _refuse_empty(self) -> None:
        if self.empty:
            raise ValueError("the area is empty")


def quarter_steps(radius: float) -> int:
    """Chords for a quarter circle of `radius` mm so that the sagitta stays under 0.005 mm.

    Sagitta of a chord over the angle a: r (1 - cos(a / 2)).
    """
    if radius <= SAGITTA:
        return 2
    half = math.acos(1 - SAGITTA / radius)
    return max(2, math.ceil(math.pi / 4 / half))


def area(rings: Sequence[Floats], evenodd: bool = True) -> Area:
    """The area that closed rings of points enclose by SVG's fill rule. Broken rings are mended, never refused;
    NaN and infinities raise ValueError (a NaN kills shapely's process)."""
    return Area(_areal(filled(rings, evenodd)))


def areas(rings: Sequence[Floats]) -> list[Area]:
    """`area` of each of many rings by itself."""
    return [Area(_areal(shape)) for shape in filled_singly(rings)]


def corners(areas: Sequence[Area]) -> list[Floats]:
    """`Area.corners` of each of many areas."""
    edges = shapely.get_exterior_ring([one.shape for one in areas])  # none of several parts
    points, of = shapely.get_coordinates(edges, return_index=True)
    stops = np.searchsorted(of, np.arange(len(areas)), side="right").tolist()
    return [
        points[start : stop - 1] if stop > start else one.corners
        for one, start, stop in zip(areas, [0, *stops], stops, strict=False)
    ]


def union(areas: Iterable[Area], *, grid: bool = False) -> Area:
    """All of them as one; `grid` first puts their points on a grid of a millionth of a mm, so that edges which only
    rounding keeps apart are one."""
    return Area(_areal(joined([one.shape for one in areas], grid=grid)))


def disc(x: float, y: float, radius: float) -> Area:
    """A disc as a polygon of the same area, its edge within 0.005 mm of the circle. Raises ValueError where a figure
    is not finite or `radius` not over 0."""
    if not (math.isfinite(x) and math.isfinite(y) and math.isfinite(radius) and radius > 0):
        raise ValueError(f"no disc has the centre ({x}, {y}) and the radius {radius}")
    sides = 4 * quarter_steps(radius)
    corner = radius * math.sqrt(2 * math.pi / sides / math.sin(2 * math.pi / sides))  # as far out as sides are in
    return Area(shapely.polygons(np.array([x, y]) + corner * _ways(sides)))


@cache
def _ways(sides: int) -> Floats:
    """Unit vectors all round."""
    turn = 2 * np.pi * np.arange(sides) / sides
    return np.column_stack([np.cos(turn), np.sin(turn)])


def _polygons(shape: Any) -> NDArray[np.object_]:
    """The polygons of a shape; points, lines and specks that an overlay left over are no area."""
    parts = shapely.get_parts(shapely.get_parts(shape))
    around = shapely.length(shapely.get_exterior_ring(parts))  # not a number for what is no polygon
    polygons: NDArray[np.object_] = parts[around > SPECK]
    return polygons


def _areal(shape: Any) -> Any:
    if isinstance(shape, shapely.Polygon | shapely.MultiPolygon):
        return shape
    polygons = _polygons(shape)
    return shapely.multipolygons(polygons) if len(polygons) else shapely.Polygon()


def _ring_curve(ring: Any) -> Curve:
    return curve(shapely.get_coordinates(ring)[:-1], closed=True)
