"""Drawn collars, rivets, screws and welds as marks: where, how large, over what area. mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from lint.drawing.drawn import Drawn
from lint.geometry.area import Area, area, union
from lint.geometry.band import band
from lint.geometry.curve import Curve
from lint.panel.fasteners import FastenerMark
from lint.panel.metal import together
from lint.panel.origins import id_of, origin_of, unlike
from lint.panel.parts import Role
from lint.panel.placing import Placing

Floats = NDArray[np.float64]
THINNEST = 0.1  # mm: the width given to an open path that has none, so that it has an area
_WAYS = 48  # directions tried for the smallest box round a shape
_ROUND = 12  # points from which a shape may be a circle


def fixings_of(items: Sequence[tuple[Role, Drawn]], placing: Placing) -> tuple[FastenerMark, ...]:
    """One mark for each collar, rivet, screw or weld; a path of several shapes apart is as many.

    The area is the inside of a closed shape, or the stroke's own band of an open one.
    """
    marks: list[FastenerMark] = []
    taken: dict[str, int] = {}
    for (role, drawn), lines in zip(items, placing.lines([drawn for _, drawn in items]), strict=True):
        for shape in _shapes(drawn, lines, placing):
            marks.append(_mark(role, drawn, unlike(id_of(drawn), drawn.line, taken), shape))
    return tuple(marks)


def _mark(role: Role, drawn: Drawn, name: str, shape: Area) -> FastenerMark:
    at, size = smallest_box(shape.corners)
    return FastenerMark(kind=role.value, id=name, origin=origin_of(drawn), at=at, size=size, area=shape)


def _shapes(drawn: Drawn, lines: Sequence[Curve], placing: Placing) -> Iterator[Area]:
    filled = drawn.paint.stroke is None
    rings = tuple(line for line in lines if line.closed or (filled and len(line.points) > 2))
    for group in together(rings) if rings else []:
        shape = area([group[0].points])
        if not shape.empty:
            yield shape
    opened = [line for line in lines if not any(line is ring for ring in rings)]
    if opened and not rings:
        yield union([_band(line, drawn, placing) for line in opened])


def _band(line: Curve, drawn: Drawn, placing: Placing) -> Area:
    return band(line, max(THINNEST, (drawn.paint.width or 0.0) * placing.mm), cap=drawn.paint.cap.value)


def smallest_box(points: Floats) -> tuple[tuple[float, float], tuple[float, float]]:
    """(middle, (length, width)) of the smallest upright or turned box round the points, among the directions of
    their own edges; the longer side first."""
    low, high = points.min(axis=0), points.max(axis=0)
    middle = (low + high) / 2
    around = np.hypot(*(points - middle).T)
    if len(points) >= _ROUND and np.ptp(around) <= 1e-3 * around.max():  # a circle: every box round it is as good
        across = 2 * float(around.max())
        return (float(middle[0]), float(middle[1])), (across, across)
    return _turned_box(points)


def _turned_box(points: Floats) -> tuple[tuple[float, float], tuple[float, float]]:
    edges = np.diff(np.concatenate([points, points[:1]]), axis=0)
    long_first = edges[np.argsort(-np.hypot(edges[:, 0], edges[:, 1]), kind="stable")[:_WAYS]]
    angles = np.concatenate([[0.0], np.arctan2(long_first[:, 1], long_first[:, 0])])
    ways = np.column_stack([np.cos(angles), np.sin(angles)])
    across = np.column_stack([-ways[:, 1], ways[:, 0]])
    u, v = points @ ways.T, points @ across.T
    spans = np.ptp(u, axis=0), np.ptp(v, axis=0)
    best = int(np.argmin(np.round(spans[0] * spans[1], 6)))
    middle = (u[:, best].max() + u[:, best].min()) / 2 * ways[best] + (
        v[:, best].max() + v[:, best].min()
    ) / 2 * across[best]
    size = sorted((float(spans[0][best]), float(spans[1][best])), reverse=True)
    return (float(middle[0]), float(middle[1])), (size[0], size[1])
