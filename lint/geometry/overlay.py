"""Overlay distance: how nearly one curve can be made to cover another, over all rigid motions."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.curve import Curve, as_complex
from lint.geometry.gaps import Pairs, Sampled, closer, near_gaps, spaced
from lint.geometry.minimax import eased
from lint.geometry.motion import Motion
from lint.geometry.starts import along, in_step, starts
from lint.values import dataclass

Floats = NDArray[np.float64]

# The accuracy of `own_symmetry`, mm.
ACCURACY = 0.02

# Starts are ranked by their largest gap at so many steps of the longer curve, and so many of them followed. Those whose
# gap is over so many times the best are not followed, and none where the best is over so many times `enough`: easing
# brings a gap down to a half, not to a quarter (2.1 times at most over 60 near pairs, 1.4 in the median). Eased on the
# coarse steps, a gap over FAR times `enough` will not come under it on fine ones.
COARSE_STEPS = 72
FOLLOWED = 4
HOPELESS = 4.0
FAR = 1.3

# The corner farthest from a side of a hull is looked for among neighbours: sides may be parallel.
BESIDE = np.array([[-1], [0], [1]])

# How often nearest points are found anew while a motion is eased.
EASINGS = 40

# A step of the easing goes no farther than so many times the gap that it hopes to leave, and a quarter of that after
# each step that did not help, down to the shortest.
FARTHEST = 5.0
SHORTEST = 0.01


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
    longer = max(moving.length, fixed.length)
    tried = starts(moving, fixed, slide=max(accuracy, longer / 500))
    if (copy := _copied(moving, fixed, tried[0].motion, accuracy / 2)) is not None:
        return copy
    apart = max(abs(a - b) for a, b in zip(signature(moving), signature(fixed), strict=True))
    fine = Sampled.at_step(moving, fixed, 16 * np.sqrt(accuracy))
    if tried[0].rms <= accuracy / 2 and (as_it_is := _Laid.by(fine, tried[0].motion).said()).distance <= accuracy / 2:
        return as_it_is
    coarse = Sampled.at_step(moving, fixed, longer / COARSE_STEPS)
    laid = sorted((_Laid.by(coarse, one.motion) for one in tried[: 1 if apart > enough else None]), key=_Laid.key)
    if apart > enough or laid[0].gap > HOPELESS * enough:
        return laid[0].said(exact=False)
    return _nearest(laid, fine, accuracy, enough)


def _nearest(laid: list[_Laid], fine: Sampled, accuracy: float, enough: float) -> Overlay:
    """The best of the hills that the starts lead to, the starts sorted by their gaps on coarse steps."""
    near = [laid[0], *(b for a, b in pairwise(laid) if b.gap > 1.001 * a.gap)][:FOLLOWED]  # equals are mirror twins
    near = [one for one in near if one.gap <= HOPELESS * max(laid[0].gap, accuracy)]
    hills = sorted((_eased(one, accuracy) for one in near), key=_Laid.key)
    if hills[0].gap > FAR * enough:
        return hills[0].said(exact=False)
    rivals = [one for one in hills[1:2] if 1.002 < one.gap / max(hills[0].gap, accuracy / 10) < 1.03]
    last = (_eased(_Laid.by(fine, one.motion), accuracy).said() for one in (hills[0], *rivals))
    best = min(last, key=lambda one: one.distance)
    return best if best.distance <= enough else replace(best, exact=False)


def _copied(moving: Curve, fixed: Curve, motion: Motion, within: float) -> Overlay | None:
    """The overlay of a copy: where all points fall on the other's within so much, so do the chords between them."""
    if len(moving.points) != len(fixed.points) or moving.closed != fixed.closed:
        return None
    laid = motion.apply(moving.points)
    for there in (fixed.points, fixed.points[::-1]):
        gaps = np.hypot(*(laid - there).T)
        worst = int(gaps.argmax())
        if gaps[worst] <= within:
            (x, y), (u, v) = laid[worst].tolist(), there[worst].tolist()
            return Overlay(distance=float(gaps[worst]), motion=motion, on_moving=(x, y), on_fixed=(u, v), exact=True)
    return None


@dataclass(frozen=True, slots=True, eq=False)
class _Laid:
    """Two sampled curves under a motion, with the pairs of facing points and the largest gap between them."""

    sampled: Sampled
    motion: Motion
    pairs: Pairs
    gap: float

    @classmethod
    def by(cls, sampled: Sampled, motion: Motion) -> _Laid:
        pairs = sampled.pairs(motion)
        return cls(sampled, motion, pairs, float(pairs.gap.max()))

    def key(self) -> float:
        return self.gap

    def said(self, *, exact: bool = True) -> Overlay:
        distance, on_moving, on_fixed = self.sampled.largest(self.motion, self.pairs)
        return Overlay(
            distance=distance,
            motion=self.motion,
            on_moving=(float(on_moving[0]), float(on_moving[1])),
            on_fixed=(float(on_fixed[0]), float(on_fixed[1])),
            exact=exact,
        )


def _eased(laid: _Laid, accuracy: float) -> _Laid:
    """Eased until the largest gap is within reach of the bound, or easing helps no more."""
    if laid.gap <= accuracy / 2:
        return laid
    sampled = laid.sampled
    reach = max(sampled.moving.length, sampled.fixed.length) / 6
    ways = sampled.moving.tangent(sampled.s_moving), sampled.fixed.tangent(sampled.s_fixed)
    farthest = FARTHEST
    for _ in range(EASINGS):
        motion, bound = eased(laid.pairs, laid.motion, reach, _across(laid, *ways), farthest)
        if laid.gap <= max(1.01 * bound, bound + accuracy / 4):
            break
        after = _Laid.by(sampled, motion)
        gained = laid.gap - after.gap
        laid = after if gained > 0 else laid
        if gained < max(0.003 * laid.gap, accuracy / 20):
            farthest /= 4  # the pairs did not hold over so long a step
            if farthest < SHORTEST:
                break
    return laid


def _across(laid: _Laid, moving_way: Floats, fixed_way: Floats) -> Floats:
    """The way each gap counts: along the gap where there is one, else square to the curve."""
    own = np.concatenate([moving_way @ laid.motion.matrix.T, fixed_way])
    square = np.column_stack([-own[:, 1], own[:, 0]])
    straight = (laid.pairs.on_moving - laid.pairs.on_fixed) / np.maximum(laid.pairs.gap, 1e-12)[:, None]
    return np.where((laid.pairs.gap > 1e-3)[:, None], straight, square)


def gap_between(a: Curve, b: Curve, accuracy: float = 0.02) -> tuple[float, tuple[float, float], tuple[float, float]]:
    """Two-way Hausdorff distance of two curves as they lie, with the two ends of the largest gap. mm."""
    still = Motion(np.eye(2), np.zeros(2))
    found = _Laid.by(Sampled.at_step(a, b, 16 * np.sqrt(accuracy)), still).said()
    return found.distance, found.on_moving, found.on_fixed


def own_symmetry(curve: Curve, half_turn: bool) -> float:
    """How far a scroll is from its own symmetry, mm: an S under its half turn, a C about its axis.

    The overlay distance of the scroll on itself run backwards: not turned over for the half turn, turned over for
    the axis. Both ends of the scroll change places, so laying it on itself as it is does not count.
    """
    there = along(curve, 0.0, curve.length)
    start = in_step(there[::-1], there, not half_turn)
    if (largest := _mirrored(curve, start.motion, 16 * np.sqrt(ACCURACY))) is not None:
        return largest
    fine = Sampled.at_step(curve, curve, 16 * np.sqrt(ACCURACY))
    return _eased(_Laid.by(fine, start.motion), ACCURACY).said().distance


def _mirrored(curve: Curve, motion: Motion, step: float) -> float | None:
    """The largest gap (mm) of a curve from itself under a motion that is its own way back, where it is within reach
    of the bound; None where it is not, or needs a search.

    The motion that lays a run of points on the same run backwards by least squares is such a one, so that the gaps
    of the one from the other are those of the other from the one.
    """
    s, points = spaced(curve, step)
    gaps = near_gaps(curve, motion.apply(points), curve.length - s)
    if gaps is None or gaps.max() > ACCURACY / 2:
        return None
    places = closer(s, gaps)
    between = near_gaps(curve, motion.apply(curve.at(places)), curve.length - places)
    return None if between is None else float(max(gaps.max(), between.max()))


@lru_cache(maxsize=4096)
def signature(curve: Curve) -> tuple[float, ...]:
    """Figures that no rigid motion, reflection or reversal changes, to sort scrolls into families without
    comparing every pair: curves within an overlay distance d differ by a bounded multiple of d in each. mm.

    The bound is d itself, for each figure: half the diameter, half the least width, the perimeter of the hull over 2
    pi. Curves within d of each other have hulls within d (Hausdorff), whose support functions differ by d at most
    (Schneider, "Convex bodies", 2014, 1.8.14). Diameter and width lie between a side and the corner farthest from it
    (Shamos 1978, the rotating calipers).
    """
    hull = shapely.convex_hull(shapely.linestrings(curve.points))
    points = as_complex(shapely.get_coordinates(hull))
    if len(points) < 4:
        half = float(abs(points[-1] - points[0])) / 2
        return half, 0.0, 2 * half / np.pi
    ring = points[:: 1 if shapely.is_ccw(shapely.get_exterior_ring(hull)) else -1]
    corners, sides = ring[:-1], ring[1:] - ring[:-1]
    turns = np.angle(sides * sides[np.arange(len(sides)) - 1].conj())
    heading = turns.cumsum()  # from that of the last side; a round in all
    farthest = np.concatenate([heading, heading + 2 * np.pi]).searchsorted(heading + np.pi)
    over = corners[(farthest + BESIDE) % len(corners)] - corners
    width = float(np.abs((sides.conj() * over).imag / np.abs(sides)).max(axis=0).min())
    diameter = float(max(np.abs(over).max(), np.abs(over - sides).max()))
    return diameter / 2, width / 2, float(shapely.length(hull) / (2 * np.pi))
