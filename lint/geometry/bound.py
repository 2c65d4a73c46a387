"""A quick bound of the overlay distance: enough to say that two curves cover one another, or that a pair is not the
worst of many."""

from __future__ import annotations

import numpy as np

from lint.geometry.curve import Curve
from lint.geometry.starts import Complexes, in_step

STEP = 2.0  # mm between points, as finely as an overlay is worked


def at_most(moving: Curve, fixed: Curve) -> float:
    """What the overlay distance of two open curves is at most, mm: the largest distance of points in step after the
    best motion by least squares, of both faces and both ways to run. Infinite for closed curves."""
    if moving.closed or fixed.closed:
        return float("inf")
    count = int(np.ceil(max(moving.length, fixed.length) / STEP)) + 1
    z, w = _points(moving, count), _points(fixed, count)
    return min(_apart(way, w, over) for way in (z, z[::-1]) for over in (False, True))


def _points(line: Curve, count: int) -> Complexes:
    points = line.at(np.linspace(0.0, line.length, count))
    return points[:, 0] + 1j * points[:, 1]


def _apart(z: Complexes, w: Complexes, over: bool) -> float:
    motion = in_step(z, w, over).motion
    moved = motion.apply(np.column_stack([z.real, z.imag]))
    return float(np.abs(moved[:, 0] + 1j * moved[:, 1] - w).max())
