"""What metal leaves free, face by face."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.area import Area
from lint.geometry.combined import joined

Floats = NDArray[np.float64]

NO_CUTS = np.zeros((0, 2, 2))


def faces(inside: Area, metals: Sequence[Area], cuts: Floats = NO_CUTS) -> tuple[Area, ...]:
    """The connected parts of `inside` that no metal covers, largest first; their holes are islands of metal. `cuts` are
    straight lines (n, 2 ends, 2) that part what they cross.

    All boundaries are noded at once and the plane is cut into faces, each of which is metal or free as one of its
    points is: joining the metal first would work through every vertex again at each step of the joining.
    """
    shapes = np.array([inside.shape, *(metal.shape for metal in metals if not metal.empty)], dtype=object)
    crossing: Any = shapely.linestrings(cuts)  # an array, which the types leave out
    lines = joined(np.append(shapely.boundary(shapes), crossing))
    parts = np.asarray(shapely.get_parts(shapely.polygonize(shapely.get_parts(lines))), dtype=object)
    points = np.asarray(shapely.point_on_surface(parts), dtype=object)
    shapely.prepare(inside.shape)
    free = np.asarray(shapely.intersects(inside.shape, points), dtype=bool)
    free[shapely.STRtree(points).query(shapes[1:], predicate="intersects")[1]] = False  # each metal is prepared once
    kept = parts[free]
    return tuple(Area(kept[k]) for k in np.argsort(-np.asarray(shapely.area(kept)), kind="stable"))
