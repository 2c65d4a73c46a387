"""The metal of a stroke whose joins are bevelled (SVG 1.1, 11.4): true corners are cut straight across."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lint.geometry.area import Area, area, union
from lint.geometry.band import band
from lint.geometry.curve import CORNER, Curve, vertex_turns

Floats = NDArray[np.float64]


def bevelled(line: Curve, width: float, cap: str) -> Area:
    """The band of `width` mm along the line, each corner of over 30 degrees cut off outside, mm."""
    turns = vertex_turns(line)
    at = np.flatnonzero(np.abs(turns) > CORNER) + (0 if line.closed else 1)
    whole = band(line, width, cap=cap)
    points, half = line.points, width / 2
    for k in at:
        before, after = points[k] - points[k - 1], points[(k + 1) % len(points)] - points[k]
        side = -1.0 if turns[k if line.closed else k - 1] > 0 else 1.0
        edges = [points[k] + side * half * _left(way) for way in (before, after)]
        tip = points[k] + (edges[0] + edges[1] - 2 * points[k]) * 4
        whole = whole.less(area([np.array([edges[0], tip, edges[1]])]))
    return union([whole])


def _left(way: Floats) -> Floats:
    turned: Floats = np.array([-way[1], way[0]]) / np.hypot(*way)
    return turned
