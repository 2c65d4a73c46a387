"""Outlines whose centreline is known: closed-form curves given a width by the geometry library's buffer, and bars
built point by point."""

from __future__ import annotations

from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from lint.geometry.area import Area

Floats = NDArray[np.float64]
Cap = Literal["flat", "round", "square"]


def polar(radius: Floats, angle: Floats) -> Floats:
    """Points at polar coordinates."""
    return np.column_stack([radius * np.cos(angle), radius * np.sin(angle)])


def archimedean(start: float, growth: float, turn: float) -> Floats:
    """r = start + growth * angle over `turn` radians, mm."""
    angle = np.linspace(0, turn, 4001)
    return polar(start + growth * angle, angle)


def logarithmic(start: float, growth: float, turn: float) -> Floats:
    """r = start * exp(growth * angle) over `turn` radians, mm."""
    angle = np.linspace(0, turn, 4001)
    return polar(start * np.exp(growth * angle), angle)


def involute(base: float, first: float, last: float) -> Floats:
    """The involute of a circle of radius `base`, unwound from `first` to `last` radians, mm."""
    t = np.linspace(first, last, 4001)
    return base * np.column_stack([np.cos(t) + t * np.sin(t), np.sin(t) - t * np.cos(t)])


def half_turns(*radii: float) -> Floats:
    """Half circles of these radii, each joining the last without a kink, mm."""
    pieces, x, side = [], 0.0, 1.0
    for radius in radii:
        angle = np.linspace(0, np.pi, 1001)
        pieces.append(np.column_stack([x + side * radius * (1 - np.cos(angle)), side * radius * np.sin(angle)]))
        x, side = x + 2 * side * radius, -side
    return np.concatenate([pieces[0], *(piece[1:] for piece in pieces[1:])])


def outline(line: Floats, width: float, cap: Cap = "flat") -> Area:
    """What lies within half the width of a line (shapely's buffer), cap "flat", "round" or "square"."""
    return Area(shapely.LineString(line).buffer(width / 2, cap_style=cap, quad_segs=32))


def tapered(line: Floats, widths: Floats) -> Area:
    """A bar with a width for each point of its centreline: two rows of points square to it."""
    along = np.gradient(line, axis=0)
    along /= np.hypot(along[:, 0], along[:, 1])[:, None]
    across = np.column_stack([-along[:, 1], along[:, 0]]) * widths[:, None] / 2
    return Area(shapely.Polygon(np.concatenate([line + across, (line - across)[::-1]])))


def renoded(area: Area, nodes: int) -> Area:
    """The outline with so many nodes at even steps."""
    ring = shapely.LinearRing(shapely.get_coordinates(area.shape))
    return Area(shapely.Polygon(shapely.line_interpolate_point(ring, np.linspace(0, ring.length, nodes)[:-1])))


def bar(length: float = 500.0, width: float = 12.0) -> BaseGeometry:
    """A straight bar from the origin along x."""
    return shapely.box(0, -width / 2, length, width / 2)


def bounded(*points: tuple[float, float]) -> BaseGeometry:
    """A polygon."""
    return shapely.Polygon(points)
