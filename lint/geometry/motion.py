"""Rigid motions of the plane: turn, shift, turn over."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lint.values import dataclass

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

    Kabsch (Acta Cryst. A32, 1976, 922) in two dimensions, with the sign of the reflection asked for. There the
    best turn needs no decomposition: with both sets about their means, it is the angle of sum(conj(p) q) taken
    as complex numbers, p conjugated beforehand where the motion turns over. Raises ValueError where the two are
    not the same number of points, or none.
    """
    if moving.shape != fixed.shape or len(moving) == 0:
        raise ValueError("a motion is fitted to two equal, not empty numbers of points")
    from_mean, to_mean = moving.mean(axis=0), fixed.mean(axis=0)
    p, q = moving - from_mean, fixed - to_mean
    if turned_over:
        p = p * [1.0, -1.0]
    cos = float((p * q).sum())
    sin = float((p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0]).sum())
    return turned_about(float(np.arctan2(sin, cos)), turned_over, from_mean, to_mean)


def turned_about(angle: float, turned_over: bool, start: Floats, end: Floats) -> Motion:
    """The motion that turns by `angle` (radians), after turning over about the x axis where asked, and that takes
    the point `start` to the point `end` (mm)."""
    c, s = np.cos(angle), np.sin(angle)
    flip = -1.0 if turned_over else 1.0
    matrix = np.array([[c, -s * flip], [s, c * flip]])
    return Motion(matrix, end - matrix @ start)
