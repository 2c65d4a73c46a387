"""The largest circle in each of many shapes: found coarsely, polished to its contacts, then proved."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

Floats = NDArray[np.float64]


def inscribed(shapes: Sequence[BaseGeometry], accuracy: float) -> Floats:
    """(x, y, radius) of the largest circle in each shape, none of them empty: shape (n, 3), mm.

    The radius is at most `accuracy` under the true one, never over it by more than rounding.
    """
    found = shapely.maximum_inscribed_circle(np.array(shapes, dtype=object), tolerance=accuracy)
    ends = shapely.get_coordinates(found).reshape(-1, 2, 2)
    return np.column_stack([ends[:, 0], np.hypot(*(ends[:, 1] - ends[:, 0]).T)])
