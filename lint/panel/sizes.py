"""Stated lengths and what they are of: the frame, a scroll, or nothing in particular. mm."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lint.panel.parts import Bar, Dimension, DrawnAs, Frame, Point, Scroll
from lint.panel.placing import Placing
from lint.panel.spans import Span
from lint.sheet.sheet import Sheet
from lint.values import dataclass

Floats = NDArray[np.float64]

_LEVEL = math.sin(math.radians(2.0))  # a dimension leans no more than this from the side it measures
_LEAST = 3.0  # mm: an end this near a side stands on it, however slender the bar


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sides:
    """Two parallel sides, as places along one axis (0 across, 1 down), and what lies between them."""

    of: str
    axis: int
    low: float
    high: float
    middle: Floats | None = None  # of a scroll
    within: float = _LEAST


def dimensions_of(
    spans: Sequence[Span], placing: Placing, frame: Frame | None, scrolls: Sequence[Scroll], sheet: Sheet
) -> tuple[Dimension, ...]:
    """Each stated length with the distance between its ends, and what its ends stand on.

    Ends square off what they measure: a line below the frame measures its width. Axes are the frame's own, so a
    drawing set at an angle is measured alike.
    """
    axes = _axes(frame)
    sides = [*_frame_sides(frame, axes), *_scroll_sides(scrolls, axes)]
    return tuple(_dimension(span, placing, axes, sides, sheet) for span in spans)


def _dimension(span: Span, placing: Placing, axes: Floats, sides: list[_Sides], sheet: Sheet) -> Dimension:
    a, b = placing.point(span.a), placing.point(span.b)
    found = _spanned(axes @ np.array(a), axes @ np.array(b), sides, sheet) if span.linear else []
    return Dimension(
        origin=span.origin,
        text=span.text,
        stated=span.stated,
        drawn=found[0].high - found[0].low if found else math.dist(a, b),
        between=(a, b),
        of=found[0].of if found else "",
        trouble=span.trouble,
        spans=tuple(side.of for side in found),
        linear=span.linear,
    )


def _spanned(a: Floats, b: Floats, sides: list[_Sides], sheet: Sheet) -> list[_Sides]:
    """What lies between two ends: the frame before any scroll, then the scroll nearest to the line."""
    length = float(np.hypot(*(b - a)))
    lean = np.abs(b - a) / max(length, 1e-9)
    axis = int(np.argmax(lean))
    if lean[1 - axis] > _LEVEL:
        return []
    low, high = sorted((float(a[axis]), float(b[axis])))
    fits = [s for s in sides if s.axis == axis and max(abs(s.low - low), abs(s.high - high)) <= s.within]
    across = float(a[1 - axis])
    far = {id(s): 0.0 if s.middle is None else abs(float(s.middle[1 - axis]) - across) for s in fits}
    off = {id(s): max(abs(s.low - low), abs(s.high - high)) for s in fits}
    return sorted(
        fits, key=lambda s: (s.middle is not None, round(off[id(s)], 3) if s.middle is None else 0, far[id(s)])
    )


def _axes(frame: Frame | None) -> Floats:
    """Unit vectors across and down the frame, as the rows of a matrix."""
    if frame is None or len(frame.corners) != 4:
        return np.eye(2)
    (ax, ay), (bx, by) = frame.corners[0].at, frame.corners[1].at
    across = np.array([bx - ax, by - ay]) / math.dist((ax, ay), (bx, by))
    return np.array([across, [-across[1], across[0]]])


def _frame_sides(frame: Frame | None, axes: Floats) -> list[_Sides]:
    if frame is None or len(frame.corners) != 4:
        return []
    within = max(_LEAST, (frame.bar_width or 0.0) / 2 - 1e-6)
    found = [*_box("", [c.at for c in frame.corners], axes, within)]
    inner = [c.inner for c in frame.corners if c.inner]
    return [*found, *(_box("inside ", inner, axes, within) if len(inner) == 4 else [])]


def _box(word: str, corners: Sequence[Point], axes: Floats, within: float) -> list[_Sides]:
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = (np.array(corners) @ axes.T).tolist()
    pairs = {"width": (0, (ax + dx) / 2, (bx + cx) / 2), "height": (1, (ay + by) / 2, (cy + dy) / 2)}
    return [_Sides(of=word + of, axis=k, low=a, high=b, within=within) for of, (k, a, b) in pairs.items()]


def _scroll_sides(scrolls: Sequence[Scroll], axes: Floats) -> list[_Sides]:
    found = []
    for scroll in scrolls:
        low, high = _extent(scroll.bar, axes)
        within = max(_LEAST, (scroll.bar.width or 0.0) / 2)
        for axis in (0, 1):
            found.append(
                _Sides(of=scroll.bar.id, axis=axis, low=float(low[axis]), high=float(high[axis]),
                       middle=(low + high) / 2, within=within)
            )  # fmt: skip
    return found


def _extent(bar: Bar, axes: Floats) -> tuple[Floats, Floats]:
    """The extent of a bar's metal along the axes."""
    if bar.drawn_as is DrawnAs.OUTLINE and bar.metal is not None and not bar.metal.empty:
        points, half = np.concatenate([ring.points for ring in bar.metal.outer]), 0.0
    else:
        points, half = bar.line.points, (bar.width or 0.0) / 2
    along = axes @ points.T  # a row for each axis: the least of a row is found sooner than that of a column
    return along.min(axis=1) - half, along.max(axis=1) + half
