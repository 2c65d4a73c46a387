"""The largest circle in an area, and where a circle's centre can be."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

from lint.geometry.alike import alike
from lint.geometry.area import Area
from lint.geometry.climb import Edges, climbed
from lint.geometry.inscribed import inscribed
from lint.values import dataclass

# Half of what a pocket that fits exactly is grown by (mm): it is found by shrinking the area by so much less, which
# leaves it that wide already.
CLOSE = 0.005

# How far a clear radius may fall short and still count as fitting, mm: a thousand times the rounding of coordinates
# written with nine digits, and far under what anybody can draw.
ROUNDING = 1e-6


# An area of more points than this is shrunk step by step, by these shares of the whole and then by the rest.
MANY = 3000
FIRST_STEPS = (0.01, 0.04, 0.16)


@dataclass(frozen=True, slots=True, kw_only=True)
class Inscribed:
    """The largest circle that an area holds: centre and diameter in mm."""

    x: float
    y: float
    diameter: float


def largest_circle(area: Area, *, accuracy: float = 0.02) -> Inscribed:
    """The largest circle in the area; its diameter is within `accuracy` mm of the true one. Raises ValueError for
    an empty area."""
    return largest_circles([area], accuracy=accuracy)[0]


def largest_circles(areas: Sequence[Area], *, accuracy: float = 0.02) -> tuple[Inscribed, ...]:
    """`largest_circle` for many areas; what is found in one holds in its copies.

    A circle held between straight walls, or by corners, comes out to rounding (1e-6 mm), so that a slot of exactly
    a limit is at the limit. Where curved edges hold it, the areas' own chords decide: see `lint.geometry.band`.
    """
    if any(one.empty for one in areas):
        raise ValueError("no circle fits an empty area")
    if not areas:
        return ()
    shapes = np.array([one.shape for one in areas], dtype=object)
    copies = alike(shapes)
    first = np.flatnonzero(copies.of == np.arange(len(shapes)))
    x, y, radius = inscribed(list(shapes[first]), accuracy / 2)[np.searchsorted(first, copies.of)].T
    at = copies.carried(x + 1j * y)
    rows = zip(at.real.tolist(), at.imag.tolist(), (2 * radius).tolist(), strict=True)
    return tuple(Inscribed(x=x, y=y, diameter=diameter) for x, y, diameter in rows)


def reach(area: Area, diameter: float) -> tuple[Area, ...]:
    """Where the centre of a circle of `diameter` mm can be: one area for each pocket, largest first; () where it
    does not fit. A pocket of a single point or a line (a circle that fits exactly) is grown by 0.01 mm, so
    that a circle which just fits is found (the limit of a strict rule lets it through).

    A circle fits where the clear radius, measured to rounding, falls short by at most 1e-6 mm. Raises ValueError
    where `diameter` is not over 0.
    """
    if not (np.isfinite(diameter) and diameter > 0):
        raise ValueError(f"a circle has a diameter over 0, not {diameter}")
    if shapely.get_num_coordinates(area.shape) < MANY:
        within, almost = area.grown(-diameter / 2), area.grown(-diameter / 2 + CLOSE).parts
    else:
        nearly = _shrunk(area, diameter / 2 - CLOSE)
        within, almost = nearly.grown(-CLOSE), nearly.parts
    roomy = within.parts
    fits = [pocket for pocket in almost if not any(pocket.shape.intersects(one.shape) for one in roomy)]
    exact = [pocket for pocket in fits if _clear_radius(area, pocket) >= diameter / 2 - ROUNDING]
    return tuple(sorted([*roomy, *(one.grown(CLOSE) for one in exact)], key=lambda one: -one.size))


def _shrunk(area: Area, by: float) -> Area:
    """An area of many points shrunk by `by` mm step by step, which comes to the same within the steps' sagittas.

    The first steps round its jags off; in one go each short chord of a traced edge, moved by many times its length,
    would cross hundreds of others (an opening between scrolls traced with 20,000 nodes: 0.6 s against 5 s).
    """
    for share in FIRST_STEPS:
        area = area.grown(-share * by)
    return area.grown(-(1 - sum(FIRST_STEPS)) * by)


def _clear_radius(area: Area, pocket: Area) -> float:
    """The radius of the largest circle about a point of the pocket, mm."""
    start = inscribed([pocket.shape], CLOSE)[:, :2]
    best = climbed(Edges.round(np.array([area.shape], dtype=object)), start)
    return float(best[0, 2])
