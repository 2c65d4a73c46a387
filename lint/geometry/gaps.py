"""The distance from points of one curve to another, and the largest of them."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.curve import Curve, as_complex
from lint.geometry.motion import Motion
from lint.values import dataclass

Floats = NDArray[np.float64]

# About the largest gaps found, the curve is looked at again at this many places between its neighbours.
CLOSER = 24
BETWEEN = np.linspace(-1.0, 1.0, CLOSER + 1)
PEAKS = 3

# A curve takes at most so many samples: on steps of 2 mm that is over 40 m of bar. A longer one is a stray node, and
# its distance needs no accuracy.
MOST = 20_000

NEXT_TO = np.array([[-2], [-1], [0]])  # the chords before, at and after one that ends at a station

ROUNDING = 1e-9  # mm: distances nearer than this are the same


@lru_cache(maxsize=64)
def stroke(line: Curve) -> Any:
    """The curve as shapely's line, prepared for many questions."""
    made = shapely.linestrings(line.run)
    shapely.prepare(made)
    return made


def feet(line: Curve, points: Floats) -> Floats:
    """The nearest places of `line` to each of `points` (n, 2)."""
    shortest = shapely.shortest_line(stroke(line), shapely.points(points))
    nearest: Floats = shapely.get_coordinates(shortest)[::2]
    return nearest


def spaced(line: Curve, step: float) -> tuple[Floats, Floats]:
    """Arc lengths on equal steps of at most `step` mm (longer ones where MOST are not enough), both ends included,
    and the points there."""
    count = max(8, min(MOST, int(np.ceil(line.length / step - 1e-9))))
    s = np.linspace(0, line.length, count + 1)[: -1 if line.closed else None]
    return s, line.at(s)


def inverse(motion: Motion) -> Motion:
    """The motion back."""
    return Motion(motion.matrix.T, -motion.matrix.T @ motion.shift)


@dataclass(frozen=True, slots=True, eq=False)
class Pairs:
    """Points that face each other: `on_moving` where the motion puts them, `on_fixed`, each (n, 2), and the gap."""

    on_moving: Floats
    on_fixed: Floats
    gap: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Sampled:
    """Two curves with points on equal steps, to be laid on one another over and over."""

    moving: Curve
    fixed: Curve
    s_moving: Floats
    s_fixed: Floats
    of_moving: Floats
    of_fixed: Floats

    @classmethod
    def at_step(cls, moving: Curve, fixed: Curve, step: float) -> Sampled:
        """Both curves sampled at `step` mm."""
        (s, points), (t, others) = spaced(moving, step), spaced(fixed, step)
        return cls(moving, fixed, s, t, points, others)

    def pairs(self, motion: Motion) -> Pairs:
        """Every sample of either curve with the nearest place of the other."""
        here, there = self._here(self.of_moving, motion), self._there(self.of_fixed, motion)
        return Pairs(*(np.concatenate(both) for both in zip(here, there, strict=True)))

    def _here(self, points: Floats, motion: Motion) -> tuple[Floats, Floats, Floats]:
        moved = motion.apply(points)
        nearest = feet(self.fixed, moved)
        return moved, nearest, np.hypot(*(moved - nearest).T)

    def _there(self, points: Floats, motion: Motion) -> tuple[Floats, Floats, Floats]:
        nearest = motion.apply(feet(self.moving, inverse(motion).apply(points)))
        return nearest, points, np.hypot(*(nearest - points).T)

    def largest(self, motion: Motion, pairs: Pairs) -> tuple[float, Floats, Floats]:
        """The two-way Hausdorff distance, looked at more closely about the largest gaps of `pairs` (which are those
        of `motion`); its ends on the moving and on the fixed curve."""
        n = len(self.of_moving)
        between = [
            self._here(self.moving.at(closer(self.s_moving, pairs.gap[:n])), motion),
            self._there(self.fixed.at(closer(self.s_fixed, pairs.gap[n:])), motion),
        ]
        ends = np.concatenate([pairs.on_moving, *(one[0] for one in between)])
        others = np.concatenate([pairs.on_fixed, *(one[1] for one in between)])
        gaps = np.concatenate([pairs.gap, *(one[2] for one in between)])
        worst = int(gaps.argmax())
        return float(gaps[worst]), ends[worst], others[worst]


def closer(s: Floats, gaps: Floats) -> Floats:
    """Arc lengths close about the largest of the gaps at the arc lengths `s`, which are equal steps. mm."""
    rising = np.concatenate([[True], gaps[1:] >= gaps[:-1], [False]])
    peaks = np.flatnonzero(rising[:-1] & ~rising[1:])
    highest = peaks[gaps[peaks].argsort()[-PEAKS:]]
    places: Floats = (s[highest][:, None] + (s[1] - s[0]) * BETWEEN).ravel()
    return places


def near_gaps(line: Curve, points: Floats, s: Floats) -> Floats | None:
    """How far each of the points (n, 2) lies from the chords of the line next to the arc lengths `s`, mm: at least
    its distance from the line. The largest is the largest distance of all, or else the answer is None."""
    path, lengths = line.path, line.stations[1:] - line.stations[:-1]
    ways = (path[1:] - path[:-1]) * (1 / lengths)
    next_to = np.minimum(np.maximum(line.stations.searchsorted(s) + NEXT_TO, 0), len(ways) - 1)
    way, away = ways[next_to], as_complex(points) - path[next_to]
    along = np.minimum(np.maximum((away * way.conj()).real, 0.0), lengths[next_to])
    gaps: Floats = np.abs(away - along * way).min(axis=0)
    worst = int(gaps.argmax())
    least = shapely.distance(shapely.linestrings(line.run), shapely.points(points[worst]))
    return gaps if gaps[worst] <= least + ROUNDING else None
