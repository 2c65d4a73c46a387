"""Rings of points made into an area by SVG's fill rules (SVG 1.1, 11.3)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.combined import joined

Floats = NDArray[np.float64]


def filled(rings: Sequence[Floats], evenodd: bool) -> Any:
    """The area that closed rings (n, 2) enclose, valid. Rings of fewer than three points enclose nothing.

    Raises ValueError where a number is not finite: a NaN kills shapely's process.
    """
    arrays = [np.asarray(ring, dtype=np.float64).reshape(-1, 2) for ring in rings]
    if not all(np.isfinite(ring).all() for ring in arrays):
        raise ValueError("an outline has a coordinate that is not a finite number")
    arrays = [ring for ring in arrays if len(ring) >= 3]
    if not arrays:
        return shapely.Polygon()
    if len(arrays) == 1:
        simple = shapely.polygons(arrays[0])
        if shapely.is_valid(simple):
            return simple
    return _faces_filled(arrays, evenodd)


def filled_singly(rings: Sequence[Floats]) -> list[Any]:
    """`filled` of each of many rings by itself, in one call where they are as plain as most."""
    plain = [k for k, ring in enumerate(rings) if len(ring) >= 3]
    points = np.concatenate([rings[k] for k in plain]) if plain else np.zeros((0, 2))
    made: dict[int, Any] = {}
    if plain and np.isfinite(points).all():
        of = np.repeat(np.arange(len(plain)), [len(rings[k]) for k in plain])
        shapes: Any = shapely.polygons(shapely.linearrings(points, indices=of))
        made = {k: shape for k, shape, valid in zip(plain, shapes, shapely.is_valid(shapes), strict=True) if valid}
    return [made[k] if k in made else filled([ring], evenodd=True) for k, ring in enumerate(rings)]


def _faces_filled(rings: list[Floats], evenodd: bool) -> Any:
    """All rings cut at their crossings into faces; the faces that the rule fills, as one."""
    lines = [shapely.LineString(np.concatenate([ring, ring[:1]])) for ring in rings]
    faces = shapely.get_parts(shapely.polygonize(shapely.get_parts(joined(lines))))
    if not len(faces):
        return shapely.Polygon()
    inside = shapely.get_coordinates(shapely.point_on_surface(faces))
    turns = sum(winding(ring, inside) for ring in rings)
    kept = faces[(np.asarray(turns) % 2 != 0) if evenodd else (np.asarray(turns) != 0)]
    return joined(kept)


def winding(ring: Floats, points: Floats) -> NDArray[np.int64]:
    """How often `ring` (n, 2) runs round each of `points` (m, 2): signed whole turns, by the crossings of a ray
    (Sunday, "Inclusion of a point in a polygon", 2001)."""
    a, b = ring, np.roll(ring, -1, axis=0)
    turns = np.empty(len(points), dtype=np.int64)
    block = max(1, 2_000_000 // len(ring))  # bounds the memory of one pass
    for start in range(0, len(points), block):
        x, y = points[start : start + block, 0, None], points[start : start + block, 1, None]
        side = (b[:, 0] - a[:, 0]) * (y - a[:, 1]) - (x - a[:, 0]) * (b[:, 1] - a[:, 1])
        up = (a[:, 1] <= y) & (b[:, 1] > y) & (side > 0)
        down = (a[:, 1] > y) & (b[:, 1] <= y) & (side < 0)
        turns[start : start + block] = up.sum(axis=1) - down.sum(axis=1)
    return turns
