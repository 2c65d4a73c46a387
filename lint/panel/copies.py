"""Scrolls that are exact copies of one another: most panels are drawn once and copied, and need measuring once."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, log2

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve, as_complex

Complex = NDArray[np.complex128]

# A copy lies within so much of its original, mm: a fifth of what an overlay distance must be exact to, and more than
# a copy loses by being moved, turned and written with four decimals.
EXACT = 0.01
STEP = 2.0  # mm: curves are compared at points no farther apart, as finely as an overlay is
SHORT = 1.0  # mm: a scroll whose ends lie nearer than this has no direction to be laid by
LENGTHS = 0.1  # mm: lengths are sorted into boxes of this size


def copies(curves: Sequence[Curve]) -> tuple[int, ...]:
    """For each curve the index of the first one that it copies within 0.01 mm, moved, turned, turned over or run
    the other way; its own where it copies none before it. Never wrong, but not complete: a copy whose path is so
    rounded that it lies farther off is left for the overlay to find."""
    laid: dict[tuple[int, int], list[tuple[int, Complex]]] = {}
    found = []
    for k, line in enumerate(curves):
        count = 2 ** ceil(log2(max(line.length / STEP, 2))) + 1
        ways = _laid_out(line, count)
        box = (count, round(line.length / LENGTHS))
        before = [one for step in (-1, 0, 1) for one in laid.get((count, box[1] + step), ())]
        original = next((i for i, points in before if _copies(ways, points)), k)
        found.append(original)
        if original == k and ways:
            laid.setdefault(box, []).append((k, ways[0]))
    return tuple(found)


def _laid_out(line: Curve, count: int) -> tuple[Complex, ...]:
    """The curve from its first end with the other end straight to the right, as it is, turned over, and run the other
    way; () where it has no two ends apart."""
    if line.closed:
        return ()
    points = as_complex(line.at(np.arange(count, dtype=np.float64) * (line.length / (count - 1))))
    span = points[-1] - points[0]
    if abs(span) < SHORT:
        return ()
    there = (points - points[0]) * (abs(span) / span)
    back = there[::-1].copy()
    back = back[0] - back
    return there, there.conj(), back, back.conj()


def _copies(ways: Sequence[Complex], original: Complex) -> bool:
    return any(abs(way[-1] - original[-1]) <= EXACT and np.abs(way - original).max() <= EXACT for way in ways)
