"""Curvature on equal steps of arc length, and turning by sign."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from lint.geometry.bends import Bending, Turning
from lint.geometry.curve import CORNER, Curve, vertex_turns
from lint.geometry.heading import KEPT, UNEVEN, heading

Floats = NDArray[np.float64]

# The inflection of an S is taken in the middle of the run whose heading is within so much (radians, 1 degree) of the
# turning point: an S with a straight middle changes sign in the middle of its straight.
LEVEL = np.radians(1.0)


@lru_cache(maxsize=KEPT)
def bending(curve: Curve, *, window: float) -> Bending:
    """Curvature on equal steps of arc length, smoothed over `window` mm (the bar's width).

    The mean of the curvature under a parabola of the window's width (Epanechnikov's weight), which is the slope of
    the straight line fitted to the heading over the window by least squares: a circle's bend comes out exactly,
    and rounded coordinates of rms error e at points p apart give an error of about e sqrt(720 p / w^5).
    Beyond the ends of an open curve its last bend is carried on, so that the smoothing has no edge. The steps are
    window / 12 or finer, down to a 32,768th of the curve. Raises ValueError where `window` is not over 0.
    """
    if not window > 0:
        raise ValueError(f"the window must be over 0 mm, not {window}")
    window = min(window, curve.length)  # nothing wider can be seen of it
    track = heading(curve, window, window)
    reach = max(1, round(window / 2 / track.step))
    t = np.arange(1, reach + 1, dtype=np.float64)
    weights = t / (2 * (t * t).sum() * track.step)
    return Bending(s=track.middles, curvature=track.against(weights))


@lru_cache(maxsize=KEPT)
def turning(curve: Curve, *, noise: float = 20.0) -> Turning:
    """Total turning by sign; a run of less than `noise` degrees is taken as the unsteadiness of a hand.

    The heading's turning points that no swing of under `noise` makes; between two of them lies a lobe. The first
    lobe starts and the last ends where the curve does: half a chord beyond its first and its last heading. Nothing but
    unsteadiness has no lobe.
    """
    turns = vertex_turns(curve)
    at = curve.stations[:-1] if curve.closed else curve.stations[1:-1]
    total = np.concatenate([[0.0], np.cumsum(turns)])
    points = _turning_points(total, noise)
    if len(points) < 2:
        return Turning(lobes=())
    marks = [0.0, *(_inflection(total, at, k, curve.length) for k in points[1:-1]), curve.length]
    swings = np.diff(total[points])
    chords = np.diff(curve.stations)
    if not curve.closed and points[0] == 0:
        swings[0] += _to_the_end(turns, chords)
    if not curve.closed and points[-1] == len(turns):
        swings[-1] += _to_the_end(turns[::-1], chords[::-1])
    return Turning(lobes=tuple((a, b, float(swing)) for a, b, swing in zip(marks[:-1], marks[1:], swings, strict=True)))


def _to_the_end(turns: Floats, chords: Floats) -> float:
    """What a curve turns over the outer half of its first chord, degrees: of the turn at the first vertex, which stands
    for the halves of two chords, the first one's share. Nothing where the turn is a corner or the chord a straight."""
    if abs(turns[0]) > CORNER or chords[0] > UNEVEN * chords[1]:
        return 0.0
    return float(turns[0] * chords[0] / (chords[0] + chords[1]))


def _turning_points(total: Floats, noise: float) -> list[int]:
    """Indices of the ends and of the turning points of `total` between which it swings by `noise` or more."""
    steps = np.sign(np.diff(total))
    moving = np.flatnonzero(steps)
    if not len(moving):
        return []
    extremes = [0, *(int(k) for k in moving[1:][np.diff(steps[moving]) != 0]), len(total) - 1]
    found = [extremes[0]]
    high = low = best = extremes[0]
    way = 0
    for k in extremes[1:]:
        if way == 0:
            high, low = (k if total[k] > total[high] else high), (k if total[k] < total[low] else low)
            if total[high] - total[low] >= noise:
                way = 1 if high > low else -1
                found, best = [min(high, low)], max(high, low)
        elif way * (total[k] - total[best]) >= 0:
            best = k
        elif way * (total[best] - total[k]) >= noise:
            found.append(best)
            way, best = -way, k
    return [*found, best] if way else []


def _inflection(total: Floats, at: Floats, k: int, length: float) -> float:
    """Arc length in the middle of the run about the turning point k of the heading."""
    near = np.abs(total - total[k]) <= np.degrees(LEVEL)
    first = k - int(np.argmin(near[k::-1])) + 1 if not near[: k + 1].all() else 0
    last = k + int(np.argmin(near[k:])) - 1 if not near[k:].all() else len(total) - 1
    start = at[first - 1] if first > 0 else 0.0  # heading k holds between the vertices k - 1 and k
    end = at[last] if last < len(at) else length
    return float((start + end) / 2)
