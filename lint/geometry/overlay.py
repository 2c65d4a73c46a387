"""Overlay distance: how nearly one curve can be made to cover another, over all rigid motions."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.curve import Curve
from lint.geometry.gaps import Pairs, Sampled
from lint.geometry.minimax import eased
from lint.geometry.motion import Motion
from lint.geometry.starts import along, in_step, starts

Floats = NDArray[np.float64]

# The accuracy of `own_symmetry`, mm.
ACCURACY = 0.02

# Starts are ranked by their largest gap at so many steps of the longer curve, and so many of them followed. Those whose
# gap is over so many times the best are not followed, and none where the best is over so many times `enough`: easing
# brings a gap down to a half or a third, not to a fourth. Eased on the coarse steps, a gap over FAR times `enough` will
# not come under it on fine ones.
COARSE_STEPS = 72
FOLLOWED = 4
HOPELESS = 4.0
FAR = 1.3

# How often nearest points are found anew while a motion is eased.
EASINGS = 12


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Overlay:
    """`distance` is the two-way Hausdorff distance in mm after `motion` has laid `moving` on `fixed`.

    `on_moving` (where `motion` puts it) and `on_fixed` are the two ends of the largest gap. `exact` is False
    where the search was stopped early because the distance is an upper bound already over `enough`.
    """

    distance: float
    motion: Motion
    on_moving: tuple[float, float]
    on_fixed: tuple[float, float]
    exact: bool


def overlay(moving: Curve, fixed: Curve, *, accuracy: float = 0.02, enough: float = 5.0) -> Overlay:
    """The smallest largest gap over all rigid motions, with and without turning over. mm.

    Direction, start point and the splitting of the path do not matter. Within `accuracy` or 2 % of the true
    minimum where that is under `enough`; above that an upper bound (`exact` False).

    The curves are laid on one another in step (`starts`), the best starts eased to the least largest gap
    (`minimax`) with the nearest points found anew each time. Gaps run from points on equal steps of arc length to
    the other curve itself, not to its vertices; the step leaves a gap unseen by at most `accuracy` where the
    curves bend by no more than a radius of 32 mm against each other, and the largest gaps are looked at again in
    between. Curves whose signatures differ by more than `enough` are told apart at once.
    """
    apart = max(abs(a - b) for a, b in zip(signature(moving), signature(fixed), strict=True))
    longer = max(moving.length, fixed.length)
    coarse = Sampled.at_step(moving, fixed, longer / COARSE_STEPS)
    tried = starts(moving, fixed, slide=max(accuracy, longer / 500))
    if apart > enough:
        return _said(coarse, tried[0], exact=False)
    ranked = sorted(((float(coarse.pairs(motion).gap.max()), k) for k, motion in enumerate(tried)))
    if ranked[0][0] > HOPELESS * enough:
        return _said(coarse, tried[ranked[0][1]], exact=False)
    fine = Sampled.at_step(moving, fixed, 16 * np.sqrt(accuracy))
    if ranked[0][0] <= accuracy / 2:
        best = _said(fine, tried[ranked[0][1]], exact=True)
        if best.distance <= accuracy / 2:
            return best
    near = [tried[k] for gap, k in ranked[:FOLLOWED] if gap <= HOPELESS * max(ranked[0][0], accuracy)]
    hills = sorted((_ease(coarse, motion, accuracy) for motion in near), key=lambda one: one[1])
    if hills[0][1] > FAR * enough:
        return _said(coarse, hills[0][0], exact=False)
    close = [motion for motion, gap in hills[:2] if gap <= 1.03 * hills[0][1] + accuracy / 4]
    best = min((_said(fine, _ease(fine, one, accuracy)[0], exact=True) for one in close), key=lambda one: one.distance)
    return best if best.distance <= enough else replace(best, exact=False)


def _said(sampled: Sampled, motion: Motion, *, exact: bool) -> Overlay:
    distance, on_moving, on_fixed = sampled.largest(motion)
    return Overlay(
        distance=distance,
        motion=motion,
        on_moving=(float(on_moving[0]), float(on_moving[1])),
        on_fixed=(float(on_fixed[0]), float(on_fixed[1])),
        exact=exact,
    )


def _ease(sampled: Sampled, motion: Motion, accuracy: float) -> tuple[Motion, float]:
    """The motion eased until its largest gap (given with it) is within reach of the bound, or easing helps no more."""
    reach = max(sampled.moving.length, sampled.fixed.length) / 6
    pairs = sampled.pairs(motion)
    least = float(pairs.gap.max())
    for _ in range(EASINGS):
        tried, bound = eased(pairs, motion, reach, _across(sampled, motion, pairs))
        after = sampled.pairs(tried)
        gained = least - float(after.gap.max())
        if gained > 0:
            motion, pairs, least = tried, after, least - gained
        if gained < max(0.003 * least, accuracy / 20) or least <= max(1.005 * bound, bound + accuracy / 8):
            break
    return motion, least


def _across(sampled: Sampled, motion: Motion, pairs: Pairs) -> Floats:
    """The way each gap counts: along the gap where there is one, else square to the curve."""
    own = np.concatenate([sampled.moving_way @ motion.matrix.T, sampled.fixed_way])
    square = np.column_stack([-own[:, 1], own[:, 0]])
    straight = (pairs.on_moving - pairs.on_fixed) / np.maximum(pairs.gap, 1e-12)[:, None]
    return np.where((pairs.gap > 1e-3)[:, None], straight, square)


def gap_between(a: Curve, b: Curve, accuracy: float = 0.02) -> tuple[float, tuple[float, float], tuple[float, float]]:
    """Two-way Hausdorff distance of two curves as they lie, with the two ends of the largest gap. mm."""
    still = Motion(np.eye(2), np.zeros(2))
    found = _said(Sampled.at_step(a, b, 16 * np.sqrt(accuracy)), still, exact=True)
    return found.distance, found.on_moving, found.on_fixed


def own_symmetry(curve: Curve, half_turn: bool) -> float:
    """How far a scroll is from its own symmetry, mm: an S under its half turn, a C about its axis.

    The overlay distance of the scroll on itself run backwards: not turned over for the half turn, turned over for
    the axis. Both ends of the scroll change places, so laying it on itself as it is does not count.
    """
    there = along(curve, 0.0, curve.length)
    _, motion = in_step(there[::-1], there, not half_turn)
    fine = Sampled.at_step(curve, curve, 16 * np.sqrt(ACCURACY))
    return _said(fine, _ease(fine, motion, ACCURACY)[0], exact=True).distance


@lru_cache(maxsize=4096)
def signature(curve: Curve) -> tuple[float, ...]:
    """Figures that no rigid motion, reflection or reversal changes, to sort scrolls into families without
    comparing every pair: curves within an overlay distance d differ by a bounded multiple of d in each. mm.

    The bound is d itself, for each figure: half the diameter, half the least width, the perimeter of the hull over 2
    pi. Curves within d of each other have hulls within d (Hausdorff), whose support functions differ by d at most
    (Schneider, "Convex bodies", 2014, 1.8.14).
    """
    hull = shapely.convex_hull(shapely.multipoints(curve.points))
    points = shapely.get_coordinates(hull) - shapely.get_coordinates(hull)[0]
    if len(points) < 4:
        half = float(np.hypot(*(points[-1] - points[0]).T)) / 2
        return half, 0.0, 2 * half / np.pi
    edges = np.diff(points, axis=0)
    normals = np.column_stack([-edges[:, 1], edges[:, 0]]) / np.hypot(edges[:, 0], edges[:, 1])[:, None]
    heights = points @ normals.T
    width = float((heights.max(axis=0) - heights.min(axis=0)).min())
    squares = (points * points).sum(axis=1)
    diameter = float(np.sqrt(np.max(squares[:, None] + squares - 2 * points @ points.T)))
    return diameter / 2, width / 2, float(shapely.length(hull) / (2 * np.pi))
