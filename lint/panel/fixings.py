"""Drawn collars, rivets, screws and welds as marks: where, how large, over what area. mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from lint.drawing.drawn import Drawn
from lint.geometry.area import Area, areas, corners, union
from lint.geometry.band import band
from lint.geometry.curve import Curve, as_complex
from lint.panel.fasteners import FastenerMark
from lint.panel.limit import refuse_tangle
from lint.panel.metal import together
from lint.panel.origins import id_of, origin_of, unlike
from lint.panel.parts import Point, Role
from lint.panel.placing import Placing

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
THINNEST = 0.1  # mm: the width given to an open path that has none, so that it has an area
_WAYS = 48  # directions tried for the smallest box round a shape
_ROUND = 12  # points from which a shape may be a circle
_AT_ONCE = 20_000  # points worked at once

Box = tuple[Point, tuple[float, float]]


def fixings_of(items: Sequence[tuple[Role, Drawn]], placing: Placing) -> tuple[FastenerMark, ...]:
    """One mark for each collar, rivet, screw or weld; a path of several shapes apart is as many.

    The area is the inside of a closed shape, or the stroke's own band of an open one.
    """
    drawn = [one for _, one in items]
    shapes = [
        (role, one, shape) for (role, one), own in zip(items, _shapes(drawn, placing), strict=True) for shape in own
    ]
    boxes = smallest_boxes([as_complex(points) for points in corners([shape for _, _, shape in shapes])])
    marks: list[FastenerMark] = []
    taken: dict[str, int] = {}
    for (role, one, shape), (at, size) in zip(shapes, boxes, strict=True):
        name = unlike(id_of(one), one.line, taken)
        marks.append(FastenerMark(kind=role.value, id=name, origin=origin_of(one), at=at, size=size, area=shape))
    return tuple(marks)


def _shapes(drawn: Sequence[Drawn], placing: Placing) -> Iterator[list[Area]]:
    """The shapes of each object."""
    lines = placing.lines(drawn)
    for one, own in zip(drawn, lines, strict=True):
        refuse_tangle(one, own)
    rings = [_rings(one, own) for one, own in zip(drawn, lines, strict=True)]
    made = iter(areas([ring.points for own in rings for ring in own]))
    for one, closed, own in zip(drawn, rings, lines, strict=True):
        if closed or not own:
            yield [shape for shape in islice(made, len(closed)) if not shape.empty]
        else:
            yield [union([_band(line, one, placing) for line in own])]


def _rings(drawn: Drawn, lines: Sequence[Curve]) -> list[Curve]:
    """The edges of closed shapes; what lies within one of them is part of it."""
    filled = drawn.paint.stroke is None
    rings = tuple(line for line in lines if line.closed or (filled and len(line.points) > 2))
    return [group[0] for group in together(rings)]


def _band(line: Curve, drawn: Drawn, placing: Placing) -> Area:
    return band(line, max(THINNEST, (drawn.paint.width or 0.0) * placing.mm), cap=drawn.paint.cap.value)


def smallest_boxes(shapes: Sequence[Complexes]) -> list[Box]:
    """(middle, (length, width)) of the smallest upright or turned box round the points x + iy of each shape, among the
    directions of its own edges; the longer side first. Shapes of as many points are worked at once."""
    alike: dict[int, list[int]] = {}
    for k, points in enumerate(shapes):
        alike.setdefault(len(points), []).append(k)
    found: dict[int, Box] = {}
    for count, which in alike.items():
        block = max(1, _AT_ONCE // count)
        for start in range(0, len(which), block):
            some = which[start : start + block]
            found.update(zip(some, _boxes(np.array([shapes[k] for k in some])), strict=True))
    return [found[k] for k in range(len(shapes))]


def _boxes(points: Complexes) -> list[Box]:
    """The boxes of m shapes of n points each (m, n)."""
    middles, _ = _upright(points)
    around = np.abs(points - middles[:, None])
    across = around.max(axis=1)
    sizes = 2 * np.stack([across, across], axis=1)  # of a circle: every box round it is as good
    other = np.flatnonzero((across - around.min(axis=1) > 1e-3 * across) | (points.shape[1] < _ROUND))
    if len(other):
        middles[other], sizes[other] = _turned_boxes(points[other])
    return [
        ((z.real, z.imag), (length, width)) for z, (length, width) in zip(middles.tolist(), sizes.tolist(), strict=True)
    ]


def _upright(points: Complexes) -> tuple[Complexes, Complexes]:
    """The middle of the upright box round points along the second axis, and its width and height as w + ih."""
    low = points.real.min(axis=1) + 1j * points.imag.min(axis=1)
    high = points.real.max(axis=1) + 1j * points.imag.max(axis=1)
    return (low + high) / 2, high - low


def _turned_boxes(points: Complexes) -> tuple[Complexes, Floats]:
    """Middles (m,) and sizes (m, 2)."""
    rows, count = np.arange(len(points)), points.shape[1]
    edges = points[:, np.arange(1, count + 1) % count] - points
    long_first = np.argsort(-np.abs(edges), axis=1, kind="stable")[:, :_WAYS]
    angles = np.angle(edges[rows[:, None], long_first])
    ways = np.concatenate([np.ones((len(points), 1)), np.exp(1j * angles)], axis=1)
    middles, sides = _upright(points[:, :, None] * ways.conj()[:, None])
    best = np.argmin(np.round(sides.real * sides.imag, 6), axis=1)
    middle, side = middles[rows, best] * ways[rows, best], sides[rows, best]
    return middle, np.sort(np.stack([side.real, side.imag], axis=1), axis=1)[:, ::-1]
