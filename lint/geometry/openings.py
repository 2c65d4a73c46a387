"""The openings that metal leaves inside a boundary, worked a field at a time."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.area import Area

Shapes = NDArray[np.object_]

# A field with so few pieces of metal is cut out in one go. Fewer would make more seams to close, more would make
# each cut slower than its share.
FEW = 100


def openings(inside: Area, metal: Sequence[Area]) -> tuple[Area, ...]:
    """What is left of `inside` without any of the `metal`: one area for each connected opening, largest first.

    The same as `inside.less(union(metal)).parts`, in a time that grows with the number of bars and not with its
    square: the plane is halved until a field has few bars, each field is cut by itself, and what was parted along
    a seam is joined again. Seams run upright or level at exact coordinates, so that no crack stays.
    """
    shapes: Any = np.array([one.shape for one in metal if not one.empty], dtype=object)
    if inside.empty:
        return ()
    if not len(shapes):
        return inside.parts
    pieces = _polygons(_left(inside.shape, shapes, shapely.bounds(shapes)))
    order = np.argsort(-shapely.area(pieces), kind="stable")
    return tuple(Area(piece) for piece in pieces[order])


def _left(field: Any, metal: Shapes, bounds: NDArray[np.float64]) -> Any:
    """The field without the metal, as an array of polygons."""
    left, top, right, bottom = shapely.bounds(field)
    meets = (bounds[:, 0] <= right) & (bounds[:, 2] >= left) & (bounds[:, 1] <= bottom) & (bounds[:, 3] >= top)
    metal, bounds = metal[meets], bounds[meets]
    level = bottom - top > right - left
    middle = (top + bottom) / 2 if level else (left + right) / 2
    low, high = (bounds[:, 1], bounds[:, 3]) if level else (bounds[:, 0], bounds[:, 2])
    crossed = ((low <= middle) & (high >= middle)).sum()
    if len(metal) <= FEW or crossed > 0.7 * len(metal):
        return _polygons(shapely.difference(field, shapely.union_all(metal)))
    halves = (
        (shapely.box(left, top, right, middle), shapely.box(left, middle, right, bottom))
        if level
        else (shapely.box(left, top, middle, bottom), shapely.box(middle, top, right, bottom))
    )
    parts = [_left(half, metal, bounds) for half in _cut(field, halves)]
    return _joined(np.concatenate(parts), middle, level)


def _cut(field: Any, halves: tuple[Any, Any]) -> list[Any]:
    cut = [shapely.intersection(field, half) for half in halves]
    return [one for one in cut if not shapely.is_empty(one)]


def _joined(pieces: Any, seam: float, level: bool) -> Any:
    """The pieces with those that meet along the seam made one."""
    bounds = shapely.bounds(pieces)
    low, high = (bounds[:, 1], bounds[:, 3]) if level else (bounds[:, 0], bounds[:, 2])
    touching = (low == seam) | (high == seam)
    if not touching.any():
        return pieces
    joined = _polygons(shapely.union_all(pieces[touching]))
    return np.concatenate([pieces[~touching], joined])


def _polygons(shape: Any) -> Any:
    """The polygons of a shape or of an array of shapes."""
    parts = shapely.get_parts(shapely.get_parts(shape))
    return parts[(shapely.get_type_id(parts) == 3) & ~shapely.is_empty(parts)]
