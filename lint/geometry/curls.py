"""A scroll's two curls: where its middle is, and whether each curl tightens all the way to its end."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from lint.geometry.bends import Stretch
from lint.geometry.curve import Curve
from lint.geometry.heading import KEPT, roughness
from lint.geometry.smoothed import bending, turning
from lint.values import dataclass

Floats = NDArray[np.float64]

# The middle is looked for among so many equal pieces of the scroll.
PLACES = 95

# A flat has fallen to this share of the bend before it and after it. "Nearly nothing" would be 0, but the smoothing
# fills a flat of one and a half windows to a tenth from its ends; a fair curl never falls at all.
FLAT = 0.35

# A flat or a backward step counts where the bar lacks this many degrees of turning over it, against the bend before
# it. Measured on fair curves as editors write them: four-node spirals lack up to 1.5 degrees in places, rounding at
# 1:10 with points 1 mm apart 1.6. A hand sees a facet of about 5.
FLAT_LACKS = 6.0
STEP_LACKS = 4.0

# A backward step has fallen by this share of the bend before it. A quarter circle of one cubic piece, as every editor
# draws it, wavers by 3.6 % (closed form: (2/3)(1 - k)/k^2 = 0.979 at its ends, k = 4 (sqrt 2 - 1)/3); a spiral of four
# such pieces a turn by up to 7 % at its slackest. A curl that opens by 15 % is seen.
STEP = 0.10

# Rough points feign flats and steps: both must go deeper, too, than so many times the rms error that the points'
# straying gives the curvature (see `bending`): the highest and the lowest of some hundred places differ by six.
ERRORS = 7.0

# Steps are judged over this much turning of the curl (radians, 15 degrees), where that is longer than the window: in a
# slack bend the same rounding is a larger share of the curvature, and the eye takes in more of the bar.
LOOK = np.radians(15.0)


@dataclass(frozen=True, slots=True, eq=False)
class _Curl:
    """Curvature (1/mm, positive the way it curls) on equal steps from the scroll's middle to one end; `s` are arc
    lengths of the scroll, running up or down; `error` is the rms error of the curvature there."""

    s: Floats
    bend: Floats
    error: Floats

    @property
    def step(self) -> float:
        return abs(float(self.s[1] - self.s[0]))

    def stretch(self, first: int, last: int, figure: float) -> Stretch:
        a, b = sorted((float(self.s[first]), float(self.s[last])))
        return Stretch(start=a - self.step / 2, end=b + self.step / 2, figure=figure)


@lru_cache(maxsize=KEPT)
def middle(curve: Curve, *, window: float) -> float:
    """Arc length of a scroll's middle, from which its two curls tighten, mm.

    An S's is where its bend changes sign; a C's where the two curls, taken as tightening to their ends, leave the
    least to be explained (the smallest area between the curvature and its running maximum, both ways). A curve of one
    radius has its middle in its middle.
    """
    lobes = turning(curve).lobes
    if len(lobes) >= 2:
        return lobes[len(lobes) // 2 - 1][1] if len(lobes) % 2 == 0 else _halfway(lobes[len(lobes) // 2])
    return _slackest(curve, window, lobes[0][2] if lobes else 1.0)


def _halfway(lobe: tuple[float, float, float]) -> float:
    return (lobe[0] + lobe[1]) / 2


def _slackest(curve: Curve, window: float, way: float) -> float:
    bent = bending(curve, window=window)
    step = bent.s[1] - bent.s[0]
    turned = np.concatenate([[0.0], np.cumsum(bent.curvature * step)])
    edges = np.linspace(0, curve.length, PLACES + 1)
    bend = np.sign(way) * np.diff(np.interp(edges, np.append(bent.s - step / 2, curve.length), turned))
    return float(edges[_least_backward(bend)] + edges[1] / 2)


def _least_backward(bend: Floats) -> int:
    """The index from which `bend` rises best both ways; of equals, the one in their middle."""
    lacking = np.array(_lacking(bend.tolist())) + np.array(_lacking(bend[::-1].tolist()))[::-1]
    mean = np.abs(bend).mean()
    level = lacking - lacking.min() <= 0.01 * mean * len(bend)
    best = np.flatnonzero(level & (bend <= bend[level].min() + 0.05 * mean))
    return int(best[len(best) // 2])


def _lacking(bend: Sequence[float]) -> list[float]:
    """For each place: the sum, from there to the end, of how far `bend` is under its highest since.

    Up to the next place that is higher, `higher`, the highest is that of the place itself.
    """
    count = len(bend)
    higher, reached, turned, lacking = [0] * count, [0.0] * (count + 1), 0.0, [0.0] * count
    for k in range(count - 1, -1, -1):
        here, after = bend[k], k + 1
        while after < count and bend[after] <= here:
            after = higher[after]
        higher[k] = after
        reached[k] = here * (after - k) + reached[after]
        turned += here
        lacking[k] = reached[k] - turned
    return lacking


def _curls(curve: Curve, window: float, look: float) -> tuple[_Curl, ...]:
    """The two curls of an open scroll; the last half window before either end is left out."""
    if curve.closed or curve.length < 4 * window:
        return ()
    bent = bending(curve, window=window)
    stray, chord = roughness(curve)
    error = np.full(len(bent.s), stray * np.sqrt(720 * chord / window**5))
    bend = bent.curvature
    if look:
        half = _half_looks(bent.s, bend, window, look)
        bend = _looked_at(bent.s, bend, half)
        error = np.minimum(error, stray * np.sqrt(6 * chord / window**3) / half)
    at = middle(curve, window=window)
    ahead = (bent.s >= at) & (bent.s <= curve.length - window / 2)
    behind = (bent.s <= at) & (bent.s >= window / 2)
    ways = (np.flatnonzero(ahead), np.flatnonzero(behind)[::-1])
    return tuple(_Curl(bent.s[i], bend[i] * np.sign(bend[i].sum()), error[i]) for i in ways if len(i) > 4)


def _half_looks(s: Floats, curvature: Floats, window: float, look: float) -> Floats:
    """Half of what `look` radians of turning take at each place: half a window at least, a sixteenth of the curve
    at most, and no farther than the nearer end. mm."""
    step = s[1] - s[0]
    half = look / np.maximum(np.abs(curvature), 1e-12) / 2
    half = np.clip(half, window / 2, max(window / 2, (s[-1] + step / 2) / 16))
    nearer_end = np.minimum(s, s[-1] - s) + step / 2
    halves: Floats = np.minimum(half, nearer_end)
    return halves


def _looked_at(s: Floats, curvature: Floats, half: Floats) -> Floats:
    """The mean curvature over `half` mm on either side of each place."""
    step = s[1] - s[0]
    edges = np.concatenate([s - step / 2, [s[-1] + step / 2]])
    turned = np.concatenate([[0.0], np.cumsum(curvature * step)])
    mean: Floats = (np.interp(s + half, edges, turned) - np.interp(s - half, edges, turned)) / (2 * half)
    return mean


def flats(curve: Curve, *, window: float) -> tuple[Stretch, ...]:
    """Stretches within a curl where the curvature falls to nearly nothing and rises again; figure = length, mm.
    The straight or slack middle of a scroll (either side of an S's change of sign, a C's back) is no flat.

    A flat lies between two places of the curl that bend at least three times as much; it runs between the places
    where half of the lesser bend is reached, which are the ends of a true straight however it was smoothed. It counts
    from 6 degrees of turning that the bar lacks over it. The last half window at the ends is not judged, nor is a
    curve under four windows long.
    """
    found = [stretch for curl in _curls(curve, window, 0.0) for stretch in _flats(curl)]
    return tuple(sorted(found, key=lambda one: one.start))


def _flats(curl: _Curl) -> list[Stretch]:
    level = np.minimum(np.maximum.accumulate(curl.bend), np.maximum.accumulate(curl.bend[::-1])[::-1])
    found = []
    for first, last in _runs(curl.bend < level / 2):
        bend, high = curl.bend[first : last + 1], level[first : last + 1]
        lacks = np.degrees((high - bend).sum() * curl.step)
        deep = (bend <= FLAT * high) & (high - bend >= ERRORS * curl.error[first : last + 1])
        if lacks >= FLAT_LACKS and deep.any():
            found.append(curl.stretch(first, last, (last - first + 1) * curl.step))
    return found


def backward_steps(curve: Curve, *, window: float) -> tuple[Stretch, ...]:
    """Stretches where a curl, from the scroll's middle to its end, opens again instead of tightening;
    figure = the drop of curvature as a share of the curvature before it (0..1).

    The curvature is taken over 15 degrees of turning, a window at least. A stretch runs over the places that are at
    least half as far open as the most open one; it counts from a drop of 10 %, and 4 degrees of turning that the bar
    lacks over it. A run of one radius is fair. The last half window at the ends is not judged, nor is a curve under
    four windows long.
    """
    found = [stretch for curl in _curls(curve, window, LOOK) for stretch in _steps(curl)]
    return tuple(sorted(found, key=lambda one: one.start))


def _steps(curl: _Curl) -> list[Stretch]:
    highest = np.maximum.accumulate(curl.bend)
    found = []
    for first, last in _runs((curl.bend < highest) & (highest > 0)):
        bend, high = curl.bend[first : last + 1], highest[first : last + 1]
        drop = high - bend
        deep = drop >= STEP * high + ERRORS * curl.error[first : last + 1]
        if deep.any() and np.degrees(drop.sum() * curl.step) >= STEP_LACKS:
            open_ = first + np.flatnonzero(drop >= drop.max() / 2)
            found.append(curl.stretch(int(open_[0]), int(open_[-1]), min(float((drop / high).max()), 1.0)))
    return found


def _runs(mask: NDArray[np.bool_]) -> list[tuple[int, int]]:
    """First and last index of every run of True."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], mask, [False]]).astype(np.int8)))
    return [(int(a), int(b) - 1) for a, b in edges.reshape(-1, 2)]
