"""Rigid motions of the plane: turn, shift, turn over."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Motion:
    """p -> matrix @ p + shift, mm; `matrix` is 2 x 2 orthogonal, its determinant -1 where it turns over."""

    matrix: Floats
    shift: Floats

    @property
    def turned_over(self) -> bool:
        """True where the motion reflects."""
        return bool(np.linalg.det(self.matrix) < 0)

    def apply(self, points: Floats) -> Floats:
        """The points (n, 2) moved."""
        moved: Floats = points @ self.matrix.T + self.shift
        return moved


def best_motion(moving: Floats, fixed: Floats, turned_over: bool) -> Motion:
    """The motion that lays `moving` on `fixed` (both (n, 2), in step) with the least sum of squares.

    Kabsch (Acta Cryst. A32, 1976, 922) in two dimensions, with the sign of the reflection asked for.
    """
    raise NotImplementedError
