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

# Starts are ranked by their largest gap at so many steps of the longer curve; those whose gap is over so many times the
# best (or over so many times `enough`) are not followed, and of the rest only the first few.
COARSE_STEPS = 64
HOPELESS = 4.0
STARTS = 4

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
    apart = max((abs(a - b) for a, b in zip(signature(moving), signature(fixed), strict=True)), default=0.0)
    coarse = Sampled.at_step(moving, fixed, max(moving.length, fixed.length) / COARSE_STEPS)
    tried = starts(moving, fixed, slide=max(accuracy, 0.1))[: 1 if apart > enough else None]
    ranked = sorted(((float(coarse.pairs(motion).gap.max()), k) for k, motion in enumerate(tried)))
    fine = Sampled.at_step(moving, fixed, 16 * np.sqrt(accuracy))
    if ranked[0][0] > HOPELESS * enough or apart > enough:
        return _said(fine, tried[ranked[0][1]], exact=False)
    best = _said(fine, tried[ranked[0][1]], exact=True)
    for rough, k in ranked[:STARTS]:
        if best.distance <= accuracy / 2 or rough > HOPELESS * max(best.distance, accuracy):
            break
        found = _refined(fine, tried[k], accuracy, enough)
        best = found if found.distance < best.distance else best
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


def _refined(sampled: Sampled, motion: Motion, accuracy: float, enough: float) -> Overlay:
    """The motion eased until the largest gap is within reach of the bound, or no easing helps any more."""
    reach = max(sampled.moving.length, sampled.fixed.length) / 6
    pairs = sampled.pairs(motion)
    least = float(pairs.gap.max())
    for turn in range(EASINGS):
        eased_motion, bound = eased(pairs, motion, reach, _tangents(sampled, motion, pairs))
        after = sampled.pairs(eased_motion)
        now = float(after.gap.max())
        gained = least - now
        if gained > 0:
            motion, pairs, least = eased_motion, after, now
        if gained < max(0.002 * least, accuracy / 20) or least <= max(1.005 * bound, bound + accuracy / 8):
            break
        if turn >= 1 and bound > 2 * enough:
            break
    return _said(sampled, motion, exact=True)


def _tangents(sampled: Sampled, motion: Motion, pairs: Pairs) -> Floats:
    """Directions along the curves at the pairs: square to the gap where there is one, else the curve's own; none
    where the nearest place is an open end of the other curve, for there the gap counts in full."""
    own = np.concatenate(
        [sampled.moving.tangent(sampled.s_moving) @ motion.matrix.T, sampled.fixed.tangent(sampled.s_fixed)]
    )
    away = pairs.on_moving - pairs.on_fixed
    square = np.column_stack([-away[:, 1], away[:, 0]]) / np.maximum(pairs.gap, 1e-12)[:, None]
    along = np.where((pairs.gap > 1e-3)[:, None], square, own)
    n = len(sampled.of_moving)
    ends = np.zeros(len(along), dtype=bool)
    if not sampled.fixed.closed:
        ends[:n] = _at_ends(pairs.on_fixed[:n], sampled.fixed.points)
    if not sampled.moving.closed:
        ends[n:] = _at_ends(pairs.on_moving[n:], motion.apply(sampled.moving.points[[0, -1]]))
    along[ends] = 0.0
    return along


def _at_ends(points: Floats, line: Floats) -> NDArray[np.bool_]:
    first, last = np.hypot(*(points - line[0]).T), np.hypot(*(points - line[-1]).T)
    at_ends: NDArray[np.bool_] = np.minimum(first, last) < 1e-9
    return at_ends


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
    return _refined(fine, motion, ACCURACY, 5.0).distance


@lru_cache(maxsize=4096)
def signature(curve: Curve) -> tuple[float, ...]:
    """Figures that no rigid motion, reflection or reversal changes, to sort scrolls into families without
    comparing every pair: curves within an overlay distance d differ by a bounded multiple of d in each. mm.

    The bound is d itself, for each figure: half the diameter, half the least width, the perimeter of the hull over 2
    pi, and the radius of the smallest circle about the curve. Curves within d of each other have hulls within d
    (Hausdorff), whose support functions differ by d at most (Schneider, "Convex bodies", 2014, 1.8.14).
    """
    hull = shapely.convex_hull(shapely.multipoints(curve.points))
    points = shapely.get_coordinates(hull)
    if len(points) < 4:
        half = float(np.hypot(*(points[-1] - points[0]).T)) / 2
        return half, 0.0, 2 * half / np.pi, half
    edges = np.diff(points, axis=0)
    normals = np.column_stack([-edges[:, 1], edges[:, 0]]) / np.hypot(edges[:, 0], edges[:, 1])[:, None]
    heights = points @ normals.T
    width = float((heights.max(axis=0) - heights.min(axis=0)).min())
    between = points[:, None] - points[None]
    diameter = float(np.sqrt((between**2).sum(axis=2).max()))
    radius = float(shapely.minimum_bounding_radius(hull))
    return diameter / 2, width / 2, float(shapely.length(hull) / (2 * np.pi)), radius
