"""Curves that are fair by definition, with their true arc length, and the ways in which editors write them.

Sources: the spirals' equations and lengths of the reference tables (worked with mpmath at 30 digits from the
definitions): Archimedes r = a + b t, logarithmic r = a e^(b t), involute of a circle, clothoid of curvature s / A^2,
and half turns of arcs.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from lint.geometry.chain import Chain
from lint.geometry.curve import Curve, curve

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Fair:
    """A dense curve: points (n, 2), headings and arc lengths (n,)."""

    points: Floats
    heading: Floats
    s: Floats


def by_curvature(bend: Callable[[Floats], Floats], length: float, count: int = 20_001) -> Fair:
    """The curve of a given curvature (1/mm) along its length, by the midpoint rule."""
    s = np.linspace(0, length, count)
    middle = (s[1:] + s[:-1]) / 2
    step = np.diff(s)
    heading = np.concatenate([[0.0], np.cumsum(bend(middle) * step)])
    half = (heading[1:] + heading[:-1]) / 2
    points = np.column_stack([np.cos(half) * step, np.sin(half) * step]).cumsum(axis=0)
    return Fair(np.concatenate([[[0.0, 0.0]], points]), heading, s)


def by_radius(radius: Callable[[Floats], Floats], start: float, end: float, count: int = 20_001) -> Fair:
    """A polar curve r(t)."""
    t = np.linspace(start, end, count)
    r = radius(t)
    points = np.column_stack([r * np.cos(t), r * np.sin(t)])
    slope = np.gradient(points, t, axis=0)
    heading = np.unwrap(np.arctan2(slope[:, 1], slope[:, 0]))
    return Fair(points, heading, np.concatenate([[0.0], np.hypot(*np.diff(points, axis=0).T).cumsum()]))


def involute(a: float, end: float, start: float = 1.0, count: int = 20_001) -> Fair:
    """The involute of a circle of radius a, from parameter `start` on; radius of curvature a t."""
    t = np.linspace(start, end, count)
    points = a * np.column_stack([np.cos(t) + t * np.sin(t), np.sin(t) - t * np.cos(t)])
    return Fair(points, t, a * (t * t - start * start) / 2)


def arcs(*runs: tuple[float, float]) -> Fair:
    """Arcs and straights, tangent to one another: (radius or 0 for a straight, length) each, in mm."""
    ends = np.cumsum([length for _, length in runs])
    bends = np.array([1 / radius if radius else 0.0 for radius, _ in runs])
    return by_curvature(lambda s: bends[np.minimum(np.searchsorted(ends, s), len(runs) - 1)], float(ends[-1]))


def c_bend(s: Floats) -> Floats:
    """A C scroll of 900 mm, slack in its back, tightening both ways."""
    bend: Floats = 0.00586 + 0.0411 * np.abs(s / 450 - 1) ** 2
    return bend


def s_bend(s: Floats) -> Floats:
    """An S scroll of 900 mm."""
    bend: Floats = np.sign(s - 450) * 0.0489 * np.abs(s / 450 - 1) ** 1.5
    return bend


FAIR = {
    "Archimedes": by_radius(lambda t: 10 + 8 * t, 0, 3 * np.pi),
    "logarithmic": by_radius(lambda t: 12 * np.exp(0.15 * t), 0, 3 * np.pi),
    "golden": by_radius(lambda t: 10 * np.exp(0.30634896253 * t), 0, 3 * np.pi),
    "involute": involute(5, 3 * np.pi),
    "clothoid": by_curvature(lambda s: s / 80**2, 400),
    "double clothoid": by_curvature(lambda s: (s - 350) / 90**2, 700),
    "three arcs": arcs((20, 20 * np.pi), (40, 40 * np.pi), (80, 80 * np.pi)),
    "C of arcs": arcs((20, 20 * np.pi), (40, 40 * np.pi), (80, 40 * np.pi), (40, 40 * np.pi), (20, 20 * np.pi)),
    "S with a straight middle": arcs((20, 30 * np.pi), (0, 150), (-20, 30 * np.pi)),
    "C scroll": by_curvature(c_bend, 900),
    "S scroll": by_curvature(s_bend, 900),
    "arc": arcs((60, 300)),
}


def sampled(fair: Fair, step: float, unit: float = 0.0) -> Curve:
    """Points every `step` mm, written with two decimals of a page unit of `unit` mm (0: as they are)."""
    s = np.linspace(0, fair.s[-1], max(3, round(float(fair.s[-1]) / step) + 1))
    points = np.column_stack([np.interp(s, fair.s, fair.points[:, axis]) for axis in (0, 1)])
    return curve(np.round(points / unit, 2) * unit if unit else points)


def cubics(fair: Fair, per_turn: int = 4) -> Floats:
    """The curve as cubic pieces, so many for each turn, nodes where the bend jumps: handles as for a circle's arc
    (4/3 tan of a quarter of the turning, times the radius that chord and turning have)."""
    turned = np.concatenate([[0.0], np.abs(np.diff(fair.heading)).cumsum()])
    marks = np.searchsorted(
        turned, np.linspace(0, turned[-1], max(2, int(np.ceil(turned[-1] / 2 / np.pi * per_turn)) + 1))
    )
    bend = np.gradient(fair.heading, fair.s)
    jumps = np.flatnonzero(np.abs(np.diff(bend)) > 0.1 * np.abs(bend).max()) + 1
    nodes = np.unique(np.concatenate([marks.clip(0, len(turned) - 1), jumps, [len(turned) - 1]]))
    nodes = nodes[np.concatenate([[True], np.diff(nodes) > 20])]
    nodes[-1] = len(turned) - 1
    pieces = []
    for a, b in pairwise(nodes):
        way = np.column_stack([np.cos(fair.heading[[a, b]]), np.sin(fair.heading[[a, b]])])
        turn = abs(fair.heading[b] - fair.heading[a])
        chord = np.hypot(*(fair.points[b] - fair.points[a]))
        handle = chord / 3 if turn < 1e-6 else 4 / 3 * np.tan(turn / 4) * chord / (2 * np.sin(turn / 2))
        p, q = fair.points[a], fair.points[b]
        pieces.append([p, p + handle * way[0], q - handle * way[1], q])
    return np.array(pieces)


def as_editors_write_it(fair: Fair) -> Iterator[tuple[str, Curve]]:
    """The curve as drawn: four and eight cubic pieces a turn, plain and rounded at 1:1 and 1:7 (0.035 mm), sampled
    polylines of 12 and 24 chords for a piece, points every 1 and 3 mm rounded at 1:1."""
    for per_turn in (4, 8):
        for unit in (0.0, 1.0, 7.0):
            drawn = cubics(fair, per_turn)
            written = np.round(drawn / unit, 2) * unit if unit else drawn
            yield f"{per_turn} pieces a turn, unit {unit}", Chain(written, False).flattened(0.005)
    pieces = cubics(fair)
    for chords in (12, 24):
        t = np.linspace(0, 1, chords + 1)[1:, None]
        u = 1 - t
        runs = [u**3 * q[0] + 3 * u * u * t * q[1] + 3 * u * t * t * q[2] + t**3 * q[3] for q in pieces]
        yield f"{chords} chords a piece", curve(np.concatenate([pieces[0, :1], *runs]))
    for step in (1.0, 3.0):
        yield f"every {step} mm", sampled(fair, step, 1.0)
