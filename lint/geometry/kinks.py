"""Breaks of the tangent, told from the bend around them."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lint.geometry.bends import Kink
from lint.geometry.curve import Curve, vertex_turns
from lint.geometry.heading import Heading, heading, roughness
from lint.geometry.ranks import medians

Floats = NDArray[np.float64]

# The jump is measured over half a window and over one, and the lesser counts. A bend of radius R that runs into a
# straight without a break shows as a jump of up to 0.148 h / R radians when measured over h beside the junction
# (section "jump"): at R = h, the tightest that a bar takes, 8.5 degrees over the window but 4.2 over its half. A true
# break shows in full in both.
SPANS = (0.5, 1.0)

# A break shows in full only at its very place: read half a step beside it, over half a window, it loses 8 % at steps of
# a 48th of the window.
FINER = 4.0

# Rough points feign breaks. Points that stray by e at p apart give the break over h an rms error of e sqrt(384 p / h^3)
# (the end slope of a parabola fitted through them, twice): 0.54 degrees for 0.02 mm, 1 mm and a bar of 12 mm. The
# limit is raised by three times that over the window and by 1.2 times over its half, so that a curve of 1,000 rough
# points raises no alarm.
ERRORS = (1.2, 3.0)


def kinks(curve: Curve, *, limit: float = 5.0, window: float) -> tuple[Kink, ...]:
    """Tangent breaks over `limit` degrees that the bend around them, measured over `window` mm, does not explain.

    At a vertex the heading is fitted by a straight line (a bend of one radius) over `window` on each side; the
    break is what the two lines leave between them there. A curve that bends evenly, tightens as a spiral does, or
    changes its radius at a tangent point, has none, however coarsely it was sampled: a vertex that turns no more
    than the greater of its neighbours for its length of curve is a sample and no break. The last half window at
    either end is not judged, for there is no bend beyond it to compare with. The angle is signed by its size only
    (0..180 degrees). One break is reported for each half window.
    """
    at, turns, spans = _vertices(curve)
    if not len(at):
        return ()
    excess = _excess(turns, spans, curve.closed)
    window = min(window, curve.length)
    track = heading(curve, window / FINER, window)
    stray, chord = roughness(curve)
    jumps, over = [], np.ones(len(at), dtype=bool)
    for share, errors in zip(SPANS, ERRORS, strict=True):
        reach = share * window
        jump = np.degrees(_jumps(track, at, excess, spans, reach))
        over &= np.abs(jump) > limit + errors * np.degrees(stray * np.sqrt(384 * chord / reach**3))
        if not over.any():
            return ()
        jumps.append(jump)
    over &= jumps[0] * jumps[1] > 0
    if not curve.closed:
        over &= (at >= window / 2) & (at <= curve.length - window / 2)
    return _peaks(curve, at, turns, np.where(over, np.abs(jumps[0]), 0.0), limit, window / 2)


def straightened(curve: Curve, found: Sequence[Kink]) -> Curve:
    """The open curve with each of its `kinks` turned back by its angle: as it would be had its hand not slipped there.
    Stations stay where they are."""
    points = curve.points.copy()
    turns = vertex_turns(curve)
    for kink in found:
        vertex = int(np.argmin(np.abs(curve.stations - kink.s)))
        back = -np.copysign(np.radians(kink.angle), turns[vertex - 1])
        turn = np.array([[np.cos(back), -np.sin(back)], [np.sin(back), np.cos(back)]])
        points[vertex + 1 :] = points[vertex] + (points[vertex + 1 :] - points[vertex]) @ turn.T
    return Curve(points, False, curve.stations)


def _vertices(curve: Curve) -> tuple[Floats, Floats, Floats]:
    """Where the vertices stand (mm), what they turn (radians), and the length of curve each stands for (mm)."""
    lengths = np.diff(curve.stations)
    if curve.closed:
        before, after, at = np.roll(lengths, 1), lengths, curve.stations[:-1]
    else:
        before, after, at = lengths[:-1], lengths[1:], curve.stations[1:-1]
    spans = (np.minimum(before, 2 * after) + np.minimum(after, 2 * before)) / 2
    return at, np.radians(vertex_turns(curve)), spans


def _excess(turns: Floats, spans: Floats, closed: bool) -> Floats:
    """What each vertex turns beyond the middle one of its own bend and its two neighbours' bends, radians."""
    bends = turns / spans
    if closed:
        beside = np.stack([np.roll(bends, 1), bends, np.roll(bends, -1)], axis=1)
    else:
        beside = np.stack([np.append(bends[:1], bends[:-1]), bends, np.append(bends[1:], bends[-1:])], axis=1)
    usual = medians(beside)
    excess: Floats = np.where(np.abs(bends) > np.abs(usual), (bends - usual) * spans, 0.0)
    return excess


def _jumps(track: Heading, at: Floats, excess: Floats, spans: Floats, reach: float) -> Floats:
    """The break at each vertex measured over `reach` mm on each side, radians.

    "Jump": the value at 0 of the least-squares line through f on (0, h) is the integral of (4/h - 6t/h^2) f; the
    difference of both sides is that of an odd weight. A turn spread over 2a shows as (1 - a/h)^2 of itself, so a
    vertex's excess, which the heading has spread over its chords, gets back the rest.
    """
    steps = max(2, round(reach / track.step))
    t = (np.arange(steps) + 0.5) / steps
    weights = (4 - 6 * t) / steps
    cells = track.against_edges(weights)
    edges = np.arange(len(cells)) * track.step
    spread = np.clip(spans / 2 / reach, 0, 1)
    jumps: Floats = np.interp(at, edges, cells) + (1 - (1 - spread) ** 2) * excess
    return jumps


def _peaks(curve: Curve, at: Floats, turns: Floats, jump: Floats, limit: float, apart: float) -> tuple[Kink, ...]:
    """The largest break of each cluster over the limit, at the vertex which turns most."""
    over = np.flatnonzero(jump > limit)
    if not len(over):
        return ()
    clusters = np.split(over, np.flatnonzero(np.diff(at[over]) > apart) + 1)
    found = []
    for cluster in clusters:
        vertex = cluster[np.abs(turns[cluster]).argmax()]
        point = curve.at(float(at[vertex]))
        angle = float(jump[cluster].max())
        found.append(Kink(s=float(at[vertex]), at=(float(point[0]), float(point[1])), angle=angle))
    return tuple(found)
