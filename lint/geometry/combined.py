"""Shapes joined, overlapped, cut and widened, also where their edges lie within rounding of one another."""

from __future__ import annotations

from typing import Any

import numpy as np
import shapely

# Where the geometry library finds no consistent result among figures that differ by rounding only, the work is done
# again with all points on this grid (mm), which cannot fail (Hobby 1999, snap rounding).
GRID = 1e-6


def widened(shapes: Any, by: Any, **how: Any) -> Any:
    """Shapes widened, or shrunk where `by` (mm) is under 0, as shapely's `buffer` does it."""
    with np.errstate(all="ignore"):  # GEOS divides by what may be zero on its way, and minds the result itself
        return shapely.buffer(shapes, by, **how)


def joined(shapes: Any, *, grid: bool = False) -> Any:
    """The union of areas, or lines cut where they meet; `grid` snaps at once, so that edges which only rounding keeps
    apart are one."""
    if grid:
        return shapely.union_all(shapes, grid_size=GRID)
    try:
        return shapely.union_all(shapes)
    except shapely.GEOSException:
        return shapely.union_all(shapes, grid_size=GRID)


def shared(one: Any, other: Any) -> Any:
    """What two shapes have in common."""
    try:
        return shapely.intersection(one, other)
    except shapely.GEOSException:
        return shapely.intersection(one, other, grid_size=GRID)


def without(one: Any, other: Any) -> Any:
    """What the first shape has and the other has not."""
    try:
        return shapely.difference(one, other)
    except shapely.GEOSException:
        return shapely.difference(one, other, grid_size=GRID)
