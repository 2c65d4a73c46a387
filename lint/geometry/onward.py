"""A curve whose end cannot be read, drawn on as it bent before."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve, curve
from lint.values import dataclass

Floats = NDArray[np.float64]

# The heading is fitted over so many widths before what is left out, or as much as that is; over more, where that does
# not lead elsewhere by more than half as much again as what the points' straying leaves open. A tight eye wants few,
# rough points many.
FITTED = (1.25, 2.5, 5.0)

# Neighbouring chords stray together, for the rows that they join share their feet: errors are so many times those of
# chords that stray each on its own.
TOGETHER = 2.0

# A bar is bent no tighter than to a centreline of half its width, and in one width its bend grows by no more than this
# share of it: so does a logarithmic spiral that closes to a quarter of its radius in half a turn, at 0.55 widths.
STEEPEST = 0.8

# A bend goes on growing for so many widths; after that it is held. A measured growth says little of what lies farther.
GROWS = 0.75

# Before its end a spiral is taken to bend at most a hundred times as much as there: before that lies its own pole.
NEVER = 0.01

STEPS = 16  # chords on what is drawn on


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Onward:
    """`line` with its last part drawn on anew. `turned` is what that part turns; `doubt` how far the line's heading at
    its end may be out: by as much as the bend's growth adds, and by what the points' straying leaves open. Degrees."""

    line: Curve
    turned: float
    doubt: float


@dataclass(frozen=True, slots=True, eq=False)
class _Spiral:
    """A logarithmic spiral from a place on: its heading there (radians), its curvature (1/mm) and the share of itself
    by which that grows for each mm, held after `grows` mm; `error` is the rms error of its heading far off (radians).
    """

    heading: float
    bend: float
    share: float
    grows: float
    error: float

    def headings(self, s: Floats) -> Floats:
        """The headings (radians) at arc lengths s, mm."""
        near = np.minimum(s, self.grows)
        held = self.bend / (1 - self.share * self.grows)
        headings: Floats = self.heading + _turned(self.bend, self.share, near) + held * (s - near)
        return headings


def onward(line: Curve, width: float, *, left_out: float, short: float = 0.0) -> Onward:
    """An open line without its last `left_out` mm, gone on from there to `short` mm before its end.

    It goes on as the logarithmic spiral that fits whole chords by least squares: its radius shrinks evenly. A circle
    and a straight are such spirals, and over half a width any spiral is one to a third of a degree where the inside of
    its eye is as wide as the bar. A quarter of the line is left out at most.
    """
    whole = line.length
    kept = max(int(np.searchsorted(line.stations, whole - min(left_out, whole / 4), side="right")), 2)
    far = max(whole - short - float(line.stations[kept - 1]), 0.0)
    spiral = _leaving(line.points[:kept], width, left_out, far)
    s = np.linspace(0.0, far, STEPS + 1)
    headings = spiral.headings(s)
    middles = (headings[1:] + headings[:-1]) / 2
    steps = (far / STEPS) * np.column_stack([np.cos(middles), np.sin(middles)])
    grown = abs(spiral.bend * spiral.share) * far**2 / 2
    return Onward(
        line=curve(np.concatenate([line.points[:kept], line.points[kept - 1] + np.cumsum(steps, axis=0)])),
        turned=abs(float(np.degrees(headings[-1] - headings[0]))),
        doubt=float(np.degrees(grown + 2 * spiral.error)),
    )


def _leaving(points: Floats, width: float, left_out: float, far: float) -> _Spiral:
    """How a run of points goes on over `far` mm; straight where there are not four chords to tell by."""
    chords = np.diff(points, axis=0)
    lengths = np.hypot(chords[:, 0], chords[:, 1])
    at = lengths / 2 - np.cumsum(lengths[::-1])[::-1]  # of each chord's middle, before the end
    way = np.unwrap(np.arctan2(chords[:, 1], chords[:, 0]))
    best = _Spiral(float(way[-1]), 0.0, 0.0, 0.0, 0.0)
    for reach in FITTED:
        near = at >= -max(reach * width, left_out)
        if np.count_nonzero(near) < 4:
            continue
        found = _fitted(at[near], way[near], width, far)
        off = found.headings(np.array([far]))[0] - best.headings(np.array([far]))[0]
        if best.grows and abs(off) > 1.5 * best.error:
            break
        best = found
    return best


def _fitted(at: Floats, way: Floats, width: float, far: float) -> _Spiral:
    """The spiral through headings `way` at the places `at`: a parabola, fitted anew without what the spiral so found
    has beyond one."""
    rows = np.vander(at / width, 3)
    inverse = np.linalg.inv(rows.T @ rows)
    bend = share = heading = 0.0
    for _ in range(3):
        straight = way - _turned(bend, share, at) + bend * at * (1 + share * at / 2)
        half_growth, turn, heading = (inverse @ (rows.T @ straight)).tolist()
        bend = float(np.clip(turn, -2, 2)) / width
        share = float(np.clip(2 * half_growth / (bend * width or 1.0), -STEEPEST, STEEPEST)) / width
    left = straight - rows @ [half_growth, turn, heading]
    ahead = np.vander([far / width], 3)[0]
    spread = float(left @ left) / max(len(at) - 3, 1) * float(ahead @ inverse @ ahead)
    return _Spiral(heading, bend, share, min(far, GROWS * width), TOGETHER * float(np.sqrt(spread)))


def _turned(bend: float, share: float, s: Floats) -> Floats:
    """What a logarithmic spiral turns (radians) on the way `s` (mm): its curvature is bend / (1 - share s)."""
    if abs(share) < 1e-9:
        return bend * s
    turned: Floats = -bend / share * np.log1p(np.maximum(-share * s, NEVER - 1))
    return turned
