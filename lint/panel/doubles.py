"""Objects drawn twice on one another: one part, and the report names them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import product

import numpy as np

from lint.geometry.curve import Curve

LYING_ON = 0.05  # mm: editors round coordinates to hundredths; copies that differ by more were moved on purpose
_CELL = 4 * LYING_ON  # mm: the side of a cell that extents are kept under
_SLACK = LYING_ON / _CELL
_PROBES = 33  # places along a curve where two that agree in extent and length are held against one another


def lying_on_one_another(lines: Sequence[Curve]) -> Iterator[tuple[int, int]]:
    """Pairs (i, j), i < j, of curves that cover one another, whatever their direction or start; each j once.

    Only curves whose extents agree are held against one another: each is kept under the cell of its extent, and
    looked for under every cell that an extent within the tolerance can have.
    """
    cells: dict[tuple[int, ...], list[int]] = {}
    for j, line in enumerate(lines):
        own = [x / _CELL for x in line.extent]
        spans = [{math.floor(x - _SLACK), math.floor(x + _SLACK)} for x in own]
        near = [i for cell in product(*spans) for i in cells.get(cell, ())]
        found = next((i for i in sorted(near) if _alike(lines[i], line) and _cover(lines[i], line)), None)
        if found is None:
            cells.setdefault(tuple(math.floor(x) for x in own), []).append(j)
        else:
            yield found, j


def _alike(a: Curve, b: Curve) -> bool:
    apart = max(abs(p - q) for p, q in zip(a.extent, b.extent, strict=True))
    return apart <= LYING_ON and abs(a.length - b.length) <= 1e-3 * a.length + 4 * LYING_ON


def _cover(a: Curve, b: Curve) -> bool:
    if a.points.shape == b.points.shape and (a.points == b.points).all():
        return True
    probes = np.linspace(0, a.length, _PROBES)
    return all(b.nearest(point)[1] <= LYING_ON for point in a.at(probes))
