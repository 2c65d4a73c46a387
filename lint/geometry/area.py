"""Areas of the plane: metal, openings, what two bars share. Shapely lives in this folder and nowhere else."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from lint.geometry.curve import Curve

Floats = NDArray[np.float64]
Point = tuple[float, float]


@dataclass(frozen=True, slots=True, eq=False)
class Area:
    """A plane area in mm; it may be empty, of several parts, and with holes."""

    shape: BaseGeometry

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
        """Left, top, right, bottom in mm."""
        raise NotImplementedError

    @property
    def parts(self) -> tuple[Area, ...]:
        """The connected parts, largest first."""
        raise NotImplementedError

    @property
    def outer(self) -> tuple[Curve, ...]:
        """The outer boundary of each part, as closed curves."""
        raise NotImplementedError

    @property
    def holes(self) -> tuple[Curve, ...]:
        """The inner boundaries of all parts, as closed curves."""
        raise NotImplementedError

    @property
    def rings(self) -> tuple[tuple[Point, ...], ...]:
        """All boundary rings as plain points (for a trace), outer first."""
        raise NotImplementedError

    @property
    def inside_point(self) -> Point:
        """A point well inside the area."""
        raise NotImplementedError

    def distance(self, other: Area) -> float:
        """Smallest distance between the two, mm; 0 where they touch or overlap."""
        raise NotImplementedError

    def nearest(self, other: Area) -> tuple[Point, Point]:
        """The two points, one on each, where they come nearest."""
        raise NotImplementedError

    def overlap(self, other: Area) -> Area:
        """What both share."""
        raise NotImplementedError

    def less(self, other: Area) -> Area:
        """This area without the other."""
        raise NotImplementedError

    def grown(self, by: float) -> Area:
        """The area grown by `by` mm all round (shrunk where negative), round corners, sagitta under 0.005 mm."""
        raise NotImplementedError

    def holds(self, point: Point) -> bool:
        """True where the point lies in the area or on its edge."""
        raise NotImplementedError

    def depth(self) -> float:
        """Width of the area across its thinnest overall direction at its widest place: twice the radius of its
        largest circle, mm (how deep one bar runs into another)."""
        raise NotImplementedError


def area(rings: Sequence[Floats], evenodd: bool = True) -> Area:
    """The area that closed rings of points enclose by SVG's fill rule. Broken rings are mended, never refused;
    NaN and infinities raise ValueError (a NaN kills shapely's process)."""
    raise NotImplementedError


def union(areas: Iterable[Area]) -> Area:
    """All of them as one."""
    raise NotImplementedError


def disc(x: float, y: float, radius: float) -> Area:
    """A disc, its sagitta under 0.005 mm."""
    raise NotImplementedError


@dataclass(frozen=True, slots=True, kw_only=True)
class Near:
    """Two areas of a list, by index, that come within the reach asked for: gap in mm (0 where they meet)."""

    first: int
    second: int
    gap: float


def near_pairs(areas: Sequence[Area], reach: float) -> tuple[Near, ...]:
    """Every pair of areas no farther apart than `reach` mm, by a spatial index; in order of index."""
    raise NotImplementedError
