"""The small motion that makes the largest gap smallest, while the pairs of facing points stay."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lint.geometry.gaps import Pairs
from lint.geometry.motion import Motion, turned_about

Floats = NDArray[np.float64]

# Rounds of re-weighting, and how near (as a share) the largest gap must come to what is proved to be the least.
ROUNDS = 60
NEAR = 0.005


def eased(pairs: Pairs, motion: Motion, reach: float, tangents: Floats) -> tuple[Motion, float]:
    """The motion improved by the best small turn and shift, and a lower bound (mm) of what any small one can reach.

    The gap of each pair is taken across the curve (the slide along it costs nothing to first order), at an open end
    in full. Weighted least squares with the weights multiplied by the gaps over and over converges to the least
    largest gap (Lawson 1961; Rice and Usow, Math. Comp. 22, 1968, 118), and the weighted rms is never over
    it, which is the bound. `tangents` (n, 2) are the directions at the pairs, zero where the gap counts in full;
    `reach` is the size of the curves, mm, to weigh turns against shifts.
    """
    middle = pairs.on_moving.mean(axis=0)
    rows, gaps = _rows(pairs, middle, reach, tangents)
    step, bound = _lawson(rows, gaps)
    angle, shift = step[0] / reach, step[1:]
    small = turned_about(float(angle), False, middle, middle + shift)
    return Motion(small.matrix @ motion.matrix, small.matrix @ motion.shift + small.shift), bound


def _rows(pairs: Pairs, middle: Floats, reach: float, tangents: Floats) -> tuple[Floats, Floats]:
    """Slopes (n, 2, 3) and gaps (n, 2) across the curve, or in full where no tangent is given."""
    away = pairs.on_moving - pairs.on_fixed
    arm = (pairs.on_moving - middle) / reach
    slopes = np.zeros((len(away), 2, 3))
    slopes[:, 0, 0], slopes[:, 1, 0] = -arm[:, 1], arm[:, 0]
    slopes[:, 0, 1] = slopes[:, 1, 2] = 1.0
    along = tangents[:, :, None] * tangents[:, None, :]  # take away what runs along the curve
    across = np.eye(2) - along
    return across @ slopes, np.einsum("nab,nb->na", across, away)


def _lawson(slopes: Floats, gaps: Floats) -> tuple[Floats, float]:
    n = len(gaps)
    weights = np.full(n, 1 / n)
    flat, right = slopes.reshape(-1, 3), gaps.ravel()
    best, least, bound = np.zeros(3), float(np.hypot(*gaps.T).max()), 0.0
    ridge = 1e-12 * np.eye(3)
    for _ in range(ROUNDS):
        each = np.repeat(weights, 2)
        weighted = flat.T * each
        step = np.linalg.solve(weighted @ flat + ridge, -(weighted @ right))
        left = flat @ step + right
        size = np.sqrt(left[::2] ** 2 + left[1::2] ** 2)
        bound = max(bound, float(np.sqrt(weights @ (size * size))))
        if size.max() < least:
            best, least = step, float(size.max())
        if least <= (1 + NEAR) * bound + 1e-12:
            break
        weights = weights * size
        weights /= weights.sum()
    return best, bound
