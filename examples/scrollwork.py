"""Scrolls for the example drawings, drawn by their bending.

A scroll is given by its curvature along the bar: slack in the middle, tightening without a step towards both
ends (a C keeps one sign, an S changes sign in the middle). Heading and place follow by integration, and the
curve is written as cubic pieces, one for each quarter of a right angle of turning.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import cumulative_simpson
from scipy.optimize import brentq

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Spiral:
    """A scroll about its own middle: points (n, 2), headings (n,) in radians, arc lengths (n,). mm, y down."""

    points: Floats
    heading: Floats
    along: Floats

    @property
    def extent(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom of the centreline, mm."""
        low, high = self.points.min(axis=0), self.points.max(axis=0)
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])

    def placed(self, x: float, y: float, *, flip_x: bool = False, flip_y: bool = False, turn: float = 0.0) -> Spiral:
        """The scroll turned (degrees), then turned over, its middle moved to (x, y)."""
        angle = np.radians(turn)
        spin = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
        flip = np.diag([-1.0 if flip_x else 1.0, -1.0 if flip_y else 1.0])
        matrix = flip @ spin
        ways = np.column_stack([np.cos(self.heading), np.sin(self.heading)]) @ matrix.T
        return Spiral(self.points @ matrix.T + [x, y], np.unwrap(np.arctan2(ways[:, 1], ways[:, 0])), self.along)


def spiral(length: float, slack: float, turns: tuple[float, float], power: float, s_shape: bool) -> Spiral:
    """A scroll of `length` mm, each half turning `turns` full turns; `slack` is the middle's share of the mean
    curvature (0 straight, 1 an arc), `power` how late the tightening comes."""
    u = np.linspace(-1.0, 1.0, 8001)
    curvature = np.zeros_like(u)
    for half, turn in ((u < 0, turns[0]), (u >= 0, turns[1])):
        mean = 2 * np.pi * turn / (length / 2)
        low = slack * mean
        high = low + (mean - low) * (power + 1)
        side = np.sign(u[half]) if s_shape else 1.0
        curvature[half] = side * (low + (high - low) * np.abs(u[half]) ** power)
    along = (u + 1) * length / 2
    heading = cumulative_simpson(curvature, x=along, initial=0.0)
    heading = heading - heading[len(u) // 2] + np.pi / 2
    xs = cumulative_simpson(np.cos(heading), x=along, initial=0.0)
    ys = cumulative_simpson(np.sin(heading), x=along, initial=0.0)
    points = np.column_stack([xs - xs[len(u) // 2], ys - ys[len(u) // 2]])
    return Spiral(points, heading, along)


def c_scroll(width: float, height: float, *, turns: float = 1.4, power: float = 2.0) -> Spiral:
    """A C scroll, its back at x = 0 facing left, whose centreline is exactly `width` by `height` mm."""

    def proportion(slack: float) -> float:
        left, top, right, bottom = spiral(1000.0, slack, (turns, turns), power, False).extent
        return (bottom - top) / (right - left) - height / width

    slack = float(brentq(proportion, 0.001, 0.95))
    left, _, right, _ = spiral(1000.0, slack, (turns, turns), power, False).extent
    made = spiral(1000.0 * width / (right - left), slack, (turns, turns), power, False)
    if made.points[:, 0].mean() < 0:
        made = made.placed(0, 0, flip_x=True)
    return made


def s_scroll(width: float, height: float, *, turns: float = 1.4, power: float = 1.5, slack: float = 0.0) -> Spiral:
    """An S scroll standing up, whose centreline is exactly `width` by `height` mm, its middle at (0, 0)."""
    start = spiral(1000.0, slack, (turns, turns), power, True)

    def size(turn: float) -> tuple[float, float]:
        left, top, right, bottom = start.placed(0, 0, turn=turn).extent
        return right - left, bottom - top

    def proportion(turn: float) -> float:
        across, down = size(turn)
        return down / across - height / width

    grid = np.linspace(0, 180, 181)
    values = [proportion(t) for t in grid]
    roots = [i for i in range(len(grid) - 1) if values[i] * values[i + 1] < 0]
    if not roots:
        raise ValueError(f"no turn of this S is {height / width:.3f} times as tall as wide (at most {max(values)})")
    turn = float(brentq(proportion, grid[roots[0]], grid[roots[0] + 1]))
    scale = width / size(turn)[0]
    return spiral(1000.0 * scale, slack, (turns, turns), power, True).placed(0, 0, turn=turn)


def path_data(scroll: Spiral, *, unit: float = 1.0, digits: int = 4, reverse: bool = False) -> str:
    """The scroll as SVG path data, a cubic piece for each 22.5 degrees of turning. `unit` mm for each page unit."""
    turned = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(scroll.heading)))])
    knots = np.unique(np.searchsorted(turned, np.linspace(0, turned[-1], int(np.ceil(turned[-1] / (np.pi / 8))) + 1)))
    knots[-1] = len(turned) - 1
    knots = _short_enough(knots, scroll.along)
    ways = np.column_stack([np.cos(scroll.heading), np.sin(scroll.heading)])
    pieces = []
    for a, b in pairwise(knots):
        step = scroll.along[b] - scroll.along[a]
        handle = step / 3 * (1 + (scroll.heading[b] - scroll.heading[a]) ** 2 / 48)
        p, q = scroll.points[a], scroll.points[b]
        pieces.append(np.array([p, p + handle * ways[a], q - handle * ways[b], q]) / unit)
    if reverse:
        pieces = [piece[::-1] for piece in pieces[::-1]]

    def say(point: Floats) -> str:
        return f"{point[0]:.{digits}f},{point[1]:.{digits}f}"

    return f"M {say(pieces[0][0])} C " + " ".join(" ".join(say(p) for p in piece[1:]) for piece in pieces)


def _short_enough(knots: NDArray[np.intp], along: Floats) -> NDArray[np.intp]:
    """Knots with one more in the middle of every piece that is longer than a twelfth of the bar."""
    limit = along[-1] / 12
    more = [(a + b) // 2 for a, b in pairwise(knots) if along[b] - along[a] > limit]
    return np.unique(np.concatenate([knots, np.array(more, dtype=knots.dtype)]))
