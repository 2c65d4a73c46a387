"""One corner of a ring: how sharp it is."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve
from lint.geometry.fitting import FittedLine, fit_circle
from lint.panel.sides import Sides
from lint.values import dataclass

Floats = NDArray[np.float64]

SHARP = 0.05  # mm: metal that comes this near the crossing of the two sides is sharp; editors round by hundredths
_OFF_LINE = 0.03  # mm: nearer than this to a side, a point belongs to the side
_ZONE = 0.45  # of the shorter side: how far from the crossing a corner's rounding may reach
_STEPS = 900  # places looked at in the zone


@dataclass(frozen=True, slots=True, kw_only=True)
class Rounding:
    """`radius` of the corner in mm, 0 where it is sharp; `cut` where it is bevelled or notched: then the radius is
    that of the arc which would leave as much metal out."""

    radius: float
    cut: bool


def rounding(ring: Curve, sides: Sides, corner: int) -> Rounding:
    """How the ring turns at one of its four corners: by a circle fitted to what lies off both sides."""
    at = sides.corners[corner]
    before, after = sides.lines[corner - 1], sides.lines[corner]
    missing = ring.nearest(at)[1]
    if missing <= SHARP:
        return Rounding(radius=0.0, cut=False)
    half = math.radians(sides.angle(corner)) / 2
    alike = missing / (1 / math.sin(half) - 1)
    reach = _ZONE * min(sides.lengths)
    curved = _off_both(_vertices(ring, at, reach), before, after)
    if len(curved) < 5:
        curved = _off_both(_zone(ring, at, reach), before, after)
    if len(curved) >= 5:
        try:
            circle = fit_circle(curved)
        except ValueError:
            return Rounding(radius=alike, cut=True)
        if circle.off <= max(0.05, 0.02 * circle.radius) and abs(circle.radius / alike - 1) < 0.25:
            return Rounding(radius=circle.radius, cut=False)
    return Rounding(radius=alike, cut=True)


def _vertices(ring: Curve, at: tuple[float, float], reach: float) -> Floats:
    """The ring's own points: those of a flattened arc lie on it, between them the chords cut inside."""
    near: Floats = ring.points[np.hypot(*(ring.points - np.array(at)).T) <= reach]
    return near


def _zone(ring: Curve, at: tuple[float, float], reach: float) -> Floats:
    middle = ring.nearest(at)[0]
    points = ring.at((middle + np.linspace(-1.5, 1.5, _STEPS) * reach) % ring.length)
    near: Floats = points[np.hypot(*(points - np.array(at)).T) <= reach]
    return near


def _off_both(points: Floats, *lines: FittedLine) -> Floats:
    for line in lines:
        points = points[line.distances(points) > max(_OFF_LINE, 2 * line.off)]
    return points
