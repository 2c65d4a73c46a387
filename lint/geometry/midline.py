"""The centreline of a bar drawn as an outline, with its width along it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.area import Area
from lint.geometry.curve import Curve, curve
from lint.geometry.medial_way import Forked, way_through
from lint.geometry.medial_web import edge_points, ring_of, woven
from lint.geometry.midline_ends import cut_back, ended, necked, trimmed
from lint.geometry.midline_rows import Rows, evenly, rows_of
from lint.geometry.midline_square import squared
from lint.geometry.ranks import median
from lint.values import dataclass

Floats = NDArray[np.float64]
Point = tuple[float, float]

# Points on the edge for each bar width: enough that the strips between two sides pair what faces one another.
POINTS_A_WIDTH = 4

# A bar is at least this many times as long as it is wide (common practice, no source: shorter is a plate or a lump).
SLENDER = 2.5

# An edge so many times as long as its inside is wide encloses nothing: a bar of 5 mm would be 50 m long.
THINNEST = 20_000

# mm2: less is what rounding leaves of nothing.
LEAST = 1e-9

# The chords' widths along the centreline must give the outline's area within this share, or they missed some of it.
AREA_KEPT = 0.15

# Straight-sided outlines a little askew give rows of points that the geometry library's triangles mistake
# by rounding. What is no bar as it lies is looked at once more turned by 0.7 radians.
TURN = np.array([[np.cos(0.7), np.sin(0.7)], [-np.sin(0.7), np.cos(0.7)]])


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Midline:
    """`line` runs from true end to true end (closed for a ring). `widths` (mm) has one entry for each point of
    the line; `width` is the bar's ordinary width (the median away from the ends), mm."""

    line: Curve
    widths: Floats
    width: float


class NotABar(Exception):
    """Why an outline cannot be read as one bar ("not slender", "branching", "several parts", "no metal"), and
    where, mm."""

    def __init__(self, why: str, at: Point) -> None:
        super().__init__(why)
        self.why = why
        self.at = at


def midline(outline: Area, *, accuracy: float = 0.05) -> Midline:
    """The centreline of a slender area: length within 0.2 % for a bar of one width, 1 % for a tapered one.

    It runs from end to end of the metal: a round cap counts. Sharp corners are mitred. Holes smaller than the
    bar is wide are passed over; one larger hole makes a closed bar. The edge's chords may be off by `accuracy`
    mm: where the outline's own points lie closer than that, the fine ones are passed over.

    Raises NotABar.
    """
    try:
        return _midline(outline, accuracy)
    except NotABar as refused:
        if refused.why != "not slender":
            raise
        try:
            return _turned(_midline(_turned_area(outline), accuracy))
        except NotABar:
            raise refused from None


def _turned_area(outline: Area) -> Area:
    return Area(shapely.transform(outline.shape, lambda xy: xy @ TURN))


def _turned(found: Midline) -> Midline:
    """A turned outline's midline, turned back."""
    return replace(found, line=curve(found.line.points @ TURN.T, found.line.closed))


def _midline(outline: Area, accuracy: float) -> Midline:
    rings = _rings(outline, accuracy)
    width = _first_width(outline, rings)
    edges = tuple(ring_of(ring) for ring in rings)
    web = woven(edges, edge_points(edges, width / POINTS_A_WIDTH, width))
    if web is None:
        raise NotABar("not slender", outline.inside_point)
    way = way_through(web, width)
    if isinstance(way, Forked):
        raise NotABar("branching", way.at)
    way_inside = trimmed(web.edge.points, way) if len(way.left) > 3 else None
    rows = None if way_inside is None else rows_of(edges, web.edge, way_inside)
    if rows is None:
        raise NotABar("not slender", outline.inside_point)
    return _measured(_finished(rows, width), outline, width)


def _rings(outline: Area, accuracy: float) -> tuple[Curve, ...]:
    """The outer ring, and the holes that are larger than the bar is wide."""
    if outline.empty or not outline.size > LEAST:
        raise NotABar("no metal", (0.0, 0.0))
    if len(outline.parts) > 1:
        raise NotABar("several parts", outline.parts[1].inside_point)
    outer = outline.outer[0]
    filled_width = 2 * outer.enclosed / outer.length
    return outer, *(hole for hole in outline.holes if max(_spans(hole)) > filled_width)


def _first_width(outline: Area, rings: tuple[Curve, ...]) -> float:
    """Twice the area over the edge's length: the width of a bar as long as half its edge, mm.

    Raises NotABar for what is too stout for a bar (a bar of length L and width w has an edge of 2 (L + w)), or so
    thin that it is a line gone over twice.
    """
    around = sum(ring.length for ring in rings)
    width = 2 * outline.size / around
    if width < max(around / THINNEST, 1e-6):
        raise NotABar("no metal", outline.inside_point)
    if len(rings) == 1 and around**2 / (4 * outline.size) < (SLENDER + 1) ** 2 / SLENDER:
        raise NotABar("not slender", outline.inside_point)
    return width


def _spans(ring: Curve) -> tuple[float, float]:
    left, top, right, bottom = ring.extent
    return right - left, bottom - top


def _finished(rows: Rows, width: float) -> Rows:
    """Even rows, square to the centreline, drawn out to the true ends.

    Thrice, for the first time the ends are drawn out from where their shape begins, then from closer by.
    """
    rows = squared(evenly(rows, width), width, rounds=2)
    rows = squared(ended(necked(rows, width), width), width, ends_stay=True)
    if rows.closed:
        return rows
    rows = ended(cut_back(rows, 0.3 * width), width)
    rows = squared(evenly(rows, width), width, ends_stay=True)
    return ended(rows.part(1, len(rows.middle) - 2), width)


def _measured(rows: Rows, outline: Area, width: float) -> Midline:
    """Raises NotABar where what the rows cover is no slender bar, or not the outline."""
    try:
        line = curve(rows.middle, rows.closed)
    except ValueError:  # all rows fell on one point
        raise NotABar("not slender", outline.inside_point) from None
    if len(line.points) < len(rows.middle):  # some did
        raise NotABar("not slender", outline.inside_point)
    widths = _widths(rows)
    ordinary = _ordinary(line, widths, width)
    if line.length < SLENDER * ordinary or abs(_covered(rows, widths) / outline.size - 1) > AREA_KEPT:
        raise NotABar("not slender", outline.inside_point)
    return Midline(line=line, widths=widths, width=ordinary)


def _widths(rows: Rows) -> Floats:
    """Each row's width; at a mitred corner the smaller of its neighbours', for there the chord lies askew; at an end
    what the two rows before lead to, but no more than they have."""
    widths = rows.widths
    beside = np.minimum(np.roll(widths, 1), np.roll(widths, -1))
    widths = np.where(rows.corner, np.minimum(widths, beside), widths)
    if not rows.closed:
        gaps = np.diff(rows.along)
        widths[0] = np.clip(widths[1] + (widths[1] - widths[2]) * gaps[0] / gaps[1], 0.0, widths[1])
        widths[-1] = np.clip(widths[-2] + (widths[-2] - widths[-3]) * gaps[-1] / gaps[-2], 0.0, widths[-2])
    return widths


def _ordinary(line: Curve, widths: Floats, width: float) -> float:
    if line.closed:
        return median(widths)
    s = line.stations
    middle = (s >= min(2 * width, line.length / 4)) & (s <= line.length - min(2 * width, line.length / 4))
    return median(widths[middle]) if middle.any() else median(widths)


def _covered(rows: Rows, widths: Floats) -> float:
    along = rows.along
    return float(np.trapezoid(np.append(widths, widths[0]) if rows.closed else widths, along))
