"""A curve whose end cannot be read, drawn on as it bent before."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve, curve
from lint.values import dataclass

Floats = NDArray[np.float64]

# The heading is fitted over so many widths before what is left out, or as much as that is. Less would follow the
# straying of points, more would not follow the curvature of a tight eye.
FITTED = 1.25

# A bar is bent no tighter than to a centreline of half its width, and in one width its bend grows by no more than this
# share of it: so does a logarithmic spiral that closes to a quarter of its radius in half a turn, at 0.55 widths.
STEEPEST = 0.8

# A bend goes on growing for so many widths; after that it is held. A measured growth says little of what lies farther.
GROWS = 0.75

STEPS = 16  # chords on what is drawn on


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Onward:
    """`line` with its last part drawn on anew. `turned` is what that part turns, `grown` what of it stands and falls
    with the bend's growth, if that went on to the end; both degrees, without sign."""

    line: Curve
    turned: float
    grown: float


def onward(line: Curve, width: float, *, left_out: float, short: float = 0.0) -> Onward:
    """An open line without its last `left_out` mm, gone on from there to `short` mm before its end.

    It goes on as the logarithmic spiral that fits whole chords over 1.25 widths by least squares: its radius shrinks
    evenly. A circle and a straight are such spirals, and over half a width any spiral is one to a third of a degree
    where the inside of its eye is as wide as the bar. Between a quarter and nothing of the line is left out.
    """
    whole = line.length
    kept = max(int(np.searchsorted(line.stations, whole - min(left_out, whole / 4), side="right")), 2)
    bend, share, heading = _leaving(line.points[:kept], width, max(FITTED * width, left_out))
    far = max(whole - short - float(line.stations[kept - 1]), 0.0)
    s = np.linspace(0.0, far, STEPS + 1)
    grows = np.minimum(s, GROWS * width)
    held = bend / (1 - share * grows[-1])
    headings = heading + _spiral(bend, share, grows) + held * (s - grows)
    middles = (headings[1:] + headings[:-1]) / 2
    steps = (far / STEPS) * np.column_stack([np.cos(middles), np.sin(middles)])
    on = line.points[kept - 1] + np.cumsum(steps, axis=0)
    return Onward(
        line=curve(np.concatenate([line.points[:kept], on])),
        turned=abs(float(np.degrees(headings[-1] - headings[0]))),
        grown=abs(float(np.degrees(bend * share))) * far**2 / 2,
    )


def _spiral(bend: float, share: float, s: Floats) -> Floats:
    """What a logarithmic spiral turns (radians) on the way `s` (mm) from where its curvature is `bend` (1/mm) and grows
    by `share` of itself for each mm: its curvature is bend / (1 - share s)."""
    if abs(share) < 1e-9:
        return bend * s
    turned: Floats = -bend / share * np.log1p(-share * s)
    return turned


def _leaving(points: Floats, width: float, reach: float) -> tuple[float, float, float]:
    """Curvature (1/mm), the share of itself by which it grows for each mm, and heading (radians) at the end of a run of
    points; no bend where there are not three chords to fit it to.

    The heading is fitted by a parabola, then anew without what the spiral so found has beyond the parabola.
    """
    chords = np.diff(points, axis=0)
    lengths = np.hypot(chords[:, 0], chords[:, 1])
    at = lengths / 2 - np.cumsum(lengths[::-1])[::-1]  # of each chord's middle, before the end
    near = at >= -reach
    at, way = at[near], np.unwrap(np.arctan2(chords[near, 1], chords[near, 0]))
    if len(way) < 3:
        return 0.0, 0.0, float(np.arctan2(chords[-1, 1], chords[-1, 0]))
    bend = share = heading = 0.0
    for _ in range(3):
        beyond = _spiral(bend, share, at) - bend * at * (1 + share * at / 2)
        half_growth, bend, heading = np.polyfit(at, way - beyond, 2).tolist()
        bend = float(np.clip(bend, -2 / width, 2 / width))
        share = float(np.clip(2 * half_growth, -STEEPEST * abs(bend) / width, STEEPEST * abs(bend) / width)) / (
            bend or 1.0
        )
    return bend, share, heading
