"""What a forged square corner takes: by volume, and as two trade rules have it."""

from __future__ import annotations

import math
from collections.abc import Sequence


def fillet(radius: float, width: float) -> float:
    """Stock in mm that the fillet inside a square corner takes: (1 - pi/4) r^2 / t, by volume."""
    return (1 - math.pi / 4) * radius**2 / width


def corner_stock(first: float, second: float, width: float, radius: float = 0.0) -> float:
    """Stock in mm for one corner with legs `first` and `second` measured outside, sharp outside, inside radius
    `radius`: A + B - t + (1 - pi/4) r^2 / t, by volume."""
    return first + second - width + fillet(radius, width)


def mark_distances(outsides: Sequence[float], width: float, quarter: float = 0.25) -> tuple[float, ...]:
    """Where to centre-mark a bar for square corners before upsetting, mm between the marks, ends included.

    `outsides` are the outside lengths of the runs in order. FAO Agricultural Services Bulletin 88/2 (Stokes,
    1992, figs 57-60): a quarter of the bar's thickness is added to the outside dimension for each bend on it;
    an end run is measured from its bend to its end, which takes no share.
    """
    inner = range(1, len(outsides) - 1)
    return tuple(run + (2 * quarter * width if i in inner else 0.0) for i, run in enumerate(outsides))
