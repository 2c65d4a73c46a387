"""Scrolls drawn as outlines with drawn ends, for tests: a C by its bending, an end added along its last tangent."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from lint.geometry.area import Area
from lint.geometry.band import band
from lint.geometry.curve import Curve, curve
from lint.panel.outlines import bars_of
from lint.panel.parts import Bar, DrawnAs, Origin

Floats = NDArray[np.float64]
WIDTH = 8.0


def c_line(length: float = 700.0, turns: float = 1.4) -> Curve:
    """A C whose curvature grows as the square of the distance from its middle, mm."""
    u = np.linspace(-1, 1, 4001)
    bend = turns * 2 * math.pi / (length / 2) * (0.3 + 2.1 * u**2)
    heading = np.concatenate([[0.0], np.cumsum((bend[1:] + bend[:-1]) / 2 * np.diff(u) * length / 2)])
    way = np.column_stack([np.cos(heading), np.sin(heading)])
    steps = (way[1:] + way[:-1]) / 2 * (np.diff(u) * length / 2)[:, None]
    return curve(np.concatenate([[[0.0, 0.0]], np.cumsum(steps, axis=0)]))


def _fishtail(width: float) -> BaseGeometry:
    return shapely.Polygon([(-width, -width / 2), (width, -width), (width, width), (-width, width / 2)])


def _none(width: float) -> BaseGeometry:
    return shapely.Polygon()


def _ball(width: float) -> BaseGeometry:
    return shapely.Point(0, 0).buffer(1.1 * width, 32)


def _point(width: float) -> BaseGeometry:
    return shapely.Polygon([(0, -width / 2), (1.5 * width, 0), (0, width / 2)])


ENDS: dict[str, Callable[[float], BaseGeometry]] = {
    "plain": _none,
    "ball": _ball,
    "fishtail": _fishtail,
    "point": _point,
}


def with_ends(line: Curve, first: str, last: str, width: float | Floats = WIDTH) -> Area:
    """The band of a line with an end drawn at either end of it."""
    shapes = [band(line, width).shape]
    for name, s, sign in ((first, 0.0, -1.0), (last, line.length, 1.0)):
        c, t = sign * line.tangent(s)
        end = ENDS[name](float(np.mean(width)))
        matrix = np.array([[c, t], [-t, c]])
        points = shapely.get_coordinates(end) @ matrix + line.at(s)
        shapes.append(shapely.set_coordinates(end, points))
    return Area(shapely.union_all(shapes).buffer(0.01).buffer(-0.01))


def outlined(name: str, area: Area) -> Bar:
    """The bar that an outline is read as."""
    (found,) = bars_of(area)
    assert found.unread == "", found.unread
    return Bar(
        id=name,
        origin=Origin(line=1, id=name, layer="scrolls"),
        line=found.line,
        width=found.width,
        depth=None,
        metal=found.metal,
        drawn_as=DrawnAs.OUTLINE,
        widths=found.widths,
    )
