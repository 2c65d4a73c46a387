"""The small motion that makes the largest gap smallest, while the pairs of facing points stay."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lint.geometry.gaps import Pairs
from lint.geometry.motion import Motion, turned_about

Floats = NDArray[np.float64]

# Exchanges at most, and how near (as a share) the largest gap must come to the least that is proved.
EXCHANGES = 60
NEAR = 0.005


def eased(pairs: Pairs, motion: Motion, reach: float, across: Floats, farthest: float) -> tuple[Motion, float]:
    """The motion improved by the best small turn and shift, and a lower bound (mm) of what any small one reaches.

    `across` (n, 2) are unit vectors along which each pair's gap counts: across the curve, for a slide along it costs
    nothing to first order; straight to the end of a curve. Then the gaps are linear in the turn and the shift, and
    the least largest gap is a linear program in four unknowns, solved in its dual by exchanging one of four pairs at
    a time (Stiefel, Numer. Math. 1, 1959, 1; it is the simplex method). `reach` is the size of the curves, mm, to
    weigh turns against shifts. Neither a shift nor a turn at `reach` is longer than `farthest` times the largest gap
    left: that keeps the program bounded where a slide along the curves would cost nothing (a circle on a circle).
    """
    middle = pairs.on_moving.mean(axis=0)
    arm = (pairs.on_moving - middle) / reach
    gaps = np.einsum("na,na->n", across, pairs.on_moving - pairs.on_fixed)
    slopes = np.column_stack([across[:, 1] * arm[:, 0] - across[:, 0] * arm[:, 1], across])
    step, bound = least_largest(slopes, gaps, farthest)
    small = turned_about(float(step[0] / reach), False, middle, middle + step[1:])
    return Motion(small.matrix @ motion.matrix, small.matrix @ motion.shift + small.shift), bound


def least_largest(slopes: Floats, gaps: Floats, farthest: float) -> tuple[Floats, float]:
    """The x (3,) with the least largest |slopes @ x + gaps|, and a lower bound of that least, within 0.5 %.

    Held to |x| <= `farthest` times the least by three further rows.
    """
    rows = np.concatenate([np.eye(3) / farthest, slopes])
    right = np.concatenate([np.zeros(3), gaps])
    chosen = np.array([0, 1, 2, int(np.abs(right).argmax())])
    sign = np.ones(4)
    sign[3] = np.sign(right[chosen[3]]) or 1.0
    sign[:3] = np.where(sign[3] * rows[chosen[3]] > 0, -1.0, 1.0)
    best, least, bound = np.zeros(3), float(np.abs(gaps).max(initial=0.0)), 0.0
    for _ in range(EXCHANGES):
        basis = np.column_stack([rows[chosen] * sign[:, None], np.ones(4)])
        back = np.linalg.inv(basis)
        x = back @ (-sign * right[chosen])
        bound = max(bound, -float(x[3]))
        left = rows @ x[:3] + right
        worst = int(np.abs(left).argmax())
        if abs(left[worst]) < least:
            best, least = x[:3], float(abs(left[worst]))
        if abs(left[worst]) <= (1 + NEAR) * bound + 1e-12 or not _exchange(back, chosen, sign, worst, left, rows):
            break
    return best, bound


def _exchange(back: Floats, chosen: NDArray[np.int64], sign: Floats, worst: int, left: Floats, rows: Floats) -> bool:
    """Puts the worst row in the place of the one that then keeps all four shares positive; False where none does."""
    way = 1.0 if left[worst] > 0 else -1.0
    share, change = back[3], way * (rows[worst] @ back[:3]) + back[3]
    usable = change > 1e-12
    if not usable.any():
        return False
    out = int(np.where(usable, share / np.where(usable, change, 1.0), np.inf).argmin())
    chosen[out], sign[out] = worst, way
    return True
