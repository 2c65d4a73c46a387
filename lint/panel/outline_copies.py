"""Outlines that are copies of one another, moved, turned or turned over: their midline is worked out once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from lint.geometry.area import Area
from lint.geometry.curve import Curve, curve
from lint.geometry.motion import Motion, best_motion
from lint.panel.outlines import OutlineBar, bars_of

Floats = NDArray[np.float64]
Rings = Sequence[Curve]

# A copy's points lie within so much of the original's, mm: more than being moved, turned and written with three
# decimals costs, a fifth of what a midline is exact to.
EXACT = 0.01


def bars_of_each(shapes: Sequence[Area], rings: Sequence[Rings]) -> list[tuple[OutlineBar, ...]]:
    """`bars_of` for many objects, each with its rings as they were drawn. An object of one bar whose points are those
    of one before it, in the same order, has that one's bar, moved."""
    known: dict[tuple[float, ...], list[tuple[Floats, OutlineBar]]] = {}
    found = []
    for shape, own in zip(shapes, rings, strict=True):
        points = np.concatenate([ring.points for ring in own])
        before = known.setdefault(_key(own), [])
        copied = next((bar for other, one in before if (bar := _moved(other, points, one, shape)) is not None), None)
        bars = (copied,) if copied is not None else bars_of(shape, own)
        if copied is None and len(bars) == 1:
            before.append((points, bars[0]))
        found.append(bars)
    return found


def _key(rings: Rings) -> tuple[float, ...]:
    """What copies have in common: the number of points of each ring, its length to within a millimetre or so."""
    return tuple(figure for ring in rings for figure in (len(ring.points), round(ring.length / 4)))


def _moved(other: Floats, points: Floats, bar: OutlineBar, shape: Area) -> OutlineBar | None:
    """The bar of the other object where its points, moved, are these, and its fill is too; None where not."""
    part = next(iter(shape.parts), None)
    motion = _laid(other, points)
    if motion is None or part is None or abs(part.size - bar.metal.size) > EXACT * bar.metal.size:
        return None
    moved = curve(motion.apply(bar.line.points), bar.line.closed)
    if bar.unread_at is None:
        return replace(bar, line=moved, metal=part) if len(moved.points) == len(bar.line.points) else None
    x, y = motion.apply(np.array([bar.unread_at]))[0]
    return replace(bar, line=part.outer[0], metal=part, unread_at=(float(x), float(y)))


def _laid(moving: Floats, fixed: Floats) -> Motion | None:
    motions = (best_motion(moving, fixed, turned_over) for turned_over in (False, True))
    return next((m for m in motions if np.abs(m.apply(moving) - fixed).max() <= EXACT), None)
