"""Which areas lie beside a point, and which areas meet, by a spatial index."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

from lint.geometry.area import HAIR, Area
from lint.geometry.combined import widened

Point = tuple[float, float]


def beside(points: Sequence[Point], areas: Sequence[Area], reach: Sequence[float]) -> tuple[tuple[int, int], ...]:
    """Every pair, by index, of a point and an area within its `reach` mm (one figure for each point); in order."""
    if not points or not areas:
        return ()
    shapes = np.array([area.shape for area in areas], dtype=object)
    spots = np.atleast_1d(np.asarray(shapely.points(np.asarray(points, dtype=float)), dtype=object))
    first, second = shapely.STRtree(shapes).query(spots, predicate="dwithin", distance=np.asarray(reach) + HAIR)
    return tuple(sorted(zip(first.tolist(), second.tolist(), strict=True)))


def outside(points: Sequence[Point], areas: Sequence[Area]) -> list[float]:
    """How far each point lies outside the area that stands at its place in the list, mm: 0 in it or on its edge."""
    if not points:
        return []
    shapes = np.array([area.shape for area in areas], dtype=object)
    gaps: list[float] = np.asarray(shapely.distance(shapely.points(np.asarray(points, dtype=float)), shapes)).tolist()
    return gaps


def meeting(first: Sequence[Area], second: Sequence[Area], *, rim: float = 0.0) -> tuple[tuple[int, int], ...]:
    """Every pair, by index, of an area of the first list and one of the second that meet; in order.

    Who only comes into the outermost `rim` mm of the first does not meet it; an area with nothing inside its rim is
    taken whole.
    """
    if not first or not second:
        return ()
    shapes = np.array([area.shape for area in second], dtype=object)
    ours = np.array([area.shape for area in first], dtype=object)
    if rim > 0:
        within = np.asarray(widened(ours, -rim, join_style="mitre"), dtype=object)
        ours = np.where(shapely.is_empty(within), ours, within)
    a, b = shapely.STRtree(shapes).query(ours, predicate="intersects")
    return tuple(sorted(zip(a.tolist(), b.tolist(), strict=True)))
