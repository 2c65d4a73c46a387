"""The outline of a bar's end, unrolled: as it would lie if the bar were straight, so that ends compare."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.area import Area
from lint.geometry.curve import Curve
from lint.values import dataclass

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

# Points on the edge for each bar width: a square corner is then cut off by a 30th of the width at most.
POINTS_A_WIDTH = 24

# How far an end is looked at, in bar widths before its tip.
REACH = 2.0

# The edge is looked for so many bar widths around that: a tail spread wider than six times its bar would be cut off.
WIDEST = 3.0


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class EndOutline:
    """`edge` as it lies, points (n, 2) in mm; `unrolled` the same points in bar widths: along the centreline from the
    tip (x, negative within the bar, positive beyond it) and across it (y)."""

    edge: Floats
    unrolled: Floats


def end_outline(metal: Area, line: Curve, width: float, *, last: bool, reach: float = REACH) -> EndOutline | None:
    """The edge of a bar's last (or first) `reach` bar widths.

    `line` is the bar's centreline, `width` its width (mm), `metal` its area. None where the edge there is not one
    piece.
    """
    line = line if last else line.reversed()
    ring = max(metal.outer, key=lambda outer: outer.length).resampled(width / POINTS_A_WIDTH)
    from_tip = np.hypot(*(ring.points - line.points[-1]).T)
    tip = int(from_tip.argmin())
    about = _run_round(from_tip < (reach + WIDEST) * width, tip)
    near = np.arange(len(from_tip)) if about is None else about
    last_part = line.piece(line.length - (reach + WIDEST) * width, line.length)
    along, across = np.full(len(from_tip), -np.inf), np.zeros(len(from_tip))
    along[near], across[near] = _unrolled(ring.points[near], last_part, width)
    run = _run_round(along > last_part.length - reach * width, tip)
    if run is None:
        return None
    unrolled = np.column_stack([along[run] - last_part.length, across[run]]) / width
    return EndOutline(edge=ring.points[run], unrolled=unrolled)


def _unrolled(points: Floats, line: Curve, width: float) -> tuple[Floats, Floats]:
    """Place along the line and distance to its left hand, mm; beyond the last point the line goes straight on."""
    along = np.asarray(shapely.line_locate_point(shapely.LineString(line.points), shapely.points(points)))
    heading = line.tangent(along)
    off = points - line.at(along)
    across = heading[:, 0] * off[:, 1] - heading[:, 1] * off[:, 0]
    beyond = along >= line.length - 1e-9 * width
    ahead = (off * heading).sum(axis=1)
    along = np.where(beyond, line.length + np.maximum(ahead, 0.0), along)
    square = np.copysign(np.hypot(off[:, 0], off[:, 1]), across)
    return along, np.where(beyond, across, square)


def _run_round(inside: Flags, tip: int) -> NDArray[np.int64] | None:
    """The indices of the stretch of a ring about its point `tip` that is inside, in order; None where that is not
    inside, or the whole ring is. (Another turn of the bar may come near the end too: it is not joined to it.)"""
    if not inside[tip] or inside.all():
        return None
    turned = np.roll(inside, -tip)
    fore = int(np.argmin(turned))
    back = int(np.argmin(turned[::-1]))
    return (tip + np.arange(-back, fore)) % len(inside)


def unlike(one: Floats, other: Floats) -> float:
    """How far two unrolled end outlines differ, in bar widths: the largest distance from either edge to the other,
    turned over where that is nearer. A scaled or mirrored end is the same end."""
    return min(_apart(one, other), _apart(one, other * [1.0, -1.0]))


def _apart(one: Floats, other: Floats) -> float:
    return float(shapely.hausdorff_distance(shapely.LineString(one), shapely.LineString(other)))


def plain(outline: Floats, within: float) -> bool:
    """Whether an unrolled end is only where the bar stops, cut square or with a stroke's round cap: no end is drawn."""
    across = np.linspace(-0.5, 0.5, POINTS_A_WIDTH + 1)
    start = float(outline[:, 0].min())
    square = np.column_stack([np.zeros_like(across), across])
    cap = np.column_stack([np.sqrt(np.maximum(0.25 - across**2, 0.0)) - 0.5, across])
    ends = (np.concatenate([[[start, -0.5]], shape, [[start, 0.5]]]) for shape in (square, cap))
    return any(_apart(outline, end) <= within for end in ends)
