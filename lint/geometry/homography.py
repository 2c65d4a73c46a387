"""The plane of a photograph: the projection that takes four known points to where they were seen."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def homography(seen: Floats, true: Floats) -> Floats:
    """The 3 x 3 matrix that takes `seen` points (n, 2) to `true` ones (n, 2), n >= 4, scaled to h33 = 1.

    Direct linear transformation with Hartley's normalisation (Hartley and Zisserman, Multiple View Geometry,
    2nd ed. 2004, algorithm 4.2). Raises ValueError where three of four points lie on a line.
    """
    if len(seen) < 4 or len(seen) != len(true):
        raise ValueError("four pairs of points are needed")
    (a, to_a), (b, to_b) = _normalised(seen), _normalised(true)
    rows = []
    for (x, y), (u, v) in zip(a, b, strict=True):
        rows.append([-x, -y, -1, 0, 0, 0, u * x, u * y, u])
        rows.append([0, 0, 0, -x, -y, -1, v * x, v * y, v])
    _, sizes, turned = np.linalg.svd(np.array(rows))
    if sizes[7] < 1e-9 * sizes[0]:
        raise ValueError("three of the four points lie on a line")
    matrix: Floats = np.linalg.inv(to_b) @ turned[-1].reshape(3, 3) @ to_a
    if abs(np.linalg.det(matrix / np.linalg.norm(matrix))) < 1e-12:
        raise ValueError("three of the four points lie on a line")
    scaled: Floats = matrix / matrix[2, 2]
    return scaled


def project(matrix: Floats, points: Floats) -> Floats:
    """The points (n, 2) under the projection. Raises ValueError where one lies on or behind the horizon."""
    flat = np.column_stack([points, np.ones(len(points))]) @ matrix.T
    if np.any(flat[:, 2] * np.sign(flat[0, 2]) <= 1e-12 * np.abs(flat).max()):
        raise ValueError("a point lies beyond the horizon of the photograph")
    straight: Floats = flat[:, :2] / flat[:, 2:]
    return straight


def _normalised(points: Floats) -> tuple[Floats, Floats]:
    """The points moved to their middle at a mean distance of sqrt 2, and the matrix that does it."""
    middle = points.mean(axis=0)
    spread = float(np.linalg.norm(points - middle, axis=1).mean())
    if not spread > 0:
        raise ValueError("the points are one point")
    scale = np.sqrt(2) / spread
    matrix = np.array([[scale, 0, -scale * middle[0]], [0, scale, -scale * middle[1]], [0, 0, 1]])
    return (points - middle) * scale, matrix
