"""The plane of the photograph: which traced corner is which of the frame's, and how far the result may be off."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lint.errors import Refused
from lint.geometry.fitting import fit_line
from lint.geometry.homography import homography, project
from lint.panel.panel import Panel
from lint.record.tracing import Tracing

Floats = NDArray[np.float64]
DRAWN_STRAIGHT = 0.05  # mm: no hand follows an edge on a photograph so well; such a side is a line from end to end


def best_plane(tracing: Tracing, true: Floats, panel: Panel) -> Floats:
    """The projection, over the ways in which the traced corners can be the frame's, that lays the scrolls best.

    A photograph may lie on its side or be taken from behind; the frame alone cannot tell.
    """
    best: tuple[float, Floats] | None = None
    for seen in (tracing.corners, tracing.corners[::-1]):
        for first in range(4):
            try:
                matrix = homography(np.roll(seen, -first, axis=0), true)
                cost = _misfit(tracing, matrix, panel)
            except ValueError:
                continue
            if best is None or cost < best[0] - 1e-9:
                best = (cost, matrix)
    if best is None:
        raise Refused("The traced corners give no plane for the photograph: trace the frame's four outside edges.")
    return best[1]


def _misfit(tracing: Tracing, matrix: Floats, panel: Panel) -> float:
    """Mean distance of a few points of each traced scroll from the nearest approved one, mm."""
    lines = [scroll.bar.line for scroll in panel.scrolls]
    total, count = 0.0, 0
    for traced in tracing.scrolls:
        points = project(matrix, traced.at(np.linspace(0.0, traced.length, 9)))
        for point in points:
            total += min(line.nearest(point)[1] for line in lines)
            count += 1
    return total / max(count, 1)


def straightness(tracing: Tracing, matrix: Floats) -> float | None:
    """How far the traced sides are from straight, mm: the approved frame is straight, so this is what lens and
    hand add to every figure. None where the sides were traced as straight lines from corner to corner: they
    then say nothing of either."""
    off = max(fit_line(project(matrix, side)).off for side in tracing.sides)
    return off if off > DRAWN_STRAIGHT else None
