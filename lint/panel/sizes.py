"""Stated lengths and what they are of: the frame, a scroll, or nothing in particular. mm."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from lint.panel.parts import Bar, Dimension, DrawnAs, Frame, Point, Scroll
from lint.panel.placing import Placing
from lint.panel.spans import Span
from lint.sheet.sheet import Sheet
from lint.values import dataclass

_LEVEL = math.sin(math.radians(2.0))  # a dimension leans no more than this from the side it measures
_LEAST = 3.0  # mm: an end this near a side stands on it, however slender the bar


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sides:
    """Two parallel sides, as places along one axis (0 across, 1 down), and what lies between them: of a scroll also
    where it has its middle along the other axis."""

    of: str
    axis: int
    low: float
    high: float
    middle: float | None = None
    within: float = _LEAST


def dimensions_of(
    spans: Sequence[Span], placing: Placing, frame: Frame | None, scrolls: Sequence[Scroll], sheet: Sheet
) -> tuple[Dimension, ...]:
    """Each stated length with the distance between its ends, and what its ends stand on.

    Ends square off what they measure: a line below the frame measures its width. Axes are the frame's own, so a
    drawing set at an angle is measured alike.
    """
    level = _level(frame)
    sides = [*_frame_sides(frame, level), *_scroll_sides(scrolls, level)]
    return tuple(_dimension(span, placing, level, sides) for span in spans)


def _dimension(span: Span, placing: Placing, level: complex, sides: list[_Sides]) -> Dimension:
    a, b = placing.point(span.a), placing.point(span.b)
    found = _spanned(complex(*a) * level, complex(*b) * level, sides) if span.linear else []
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


def _spanned(a: complex, b: complex, sides: list[_Sides]) -> list[_Sides]:
    """What lies between two ends: the frame before any scroll, then the scroll nearest to the line."""
    across, down = sorted((a.real, b.real)), sorted((a.imag, b.imag))
    axis = 0 if across[1] - across[0] >= down[1] - down[0] else 1
    (low, high), aside = (across, down) if axis == 0 else (down, across)
    if aside[1] - aside[0] > _LEVEL * max(abs(b - a), 1e-9):
        return []
    fits = [s for s in sides if s.axis == axis and _off(s, low, high) <= s.within]
    beside = a.imag if axis == 0 else a.real
    return sorted(
        fits,
        key=lambda s: (
            (False, round(_off(s, low, high), 3), 0.0) if s.middle is None else (True, 0.0, abs(s.middle - beside))
        ),
    )


def _off(side: _Sides, low: float, high: float) -> float:
    return max(abs(side.low - low), abs(side.high - high))


def _level(frame: Frame | None) -> complex:
    """What points x + iy are multiplied by to lie along the frame's own axes, across and down."""
    if frame is None or len(frame.corners) != 4:
        return 1 + 0j
    top = complex(*frame.corners[1].at) - complex(*frame.corners[0].at)
    return top.conjugate() / abs(top)


def _frame_sides(frame: Frame | None, level: complex) -> list[_Sides]:
    if frame is None or len(frame.corners) != 4:
        return []
    within = max(_LEAST, (frame.bar_width or 0.0) / 2 - 1e-6)
    found = [*_box("", [c.at for c in frame.corners], level, within)]
    inner = [c.inner for c in frame.corners if c.inner]
    return [*found, *(_box("inside ", inner, level, within) if len(inner) == 4 else [])]


def _box(word: str, corners: Sequence[Point], level: complex, within: float) -> list[_Sides]:
    a, b, c, d = (complex(*corner) * level for corner in corners)
    pairs = {
        "width": (0, ((a + d) / 2).real, ((b + c) / 2).real),
        "height": (1, ((a + b) / 2).imag, ((c + d) / 2).imag),
    }
    return [_Sides(of=word + of, axis=k, low=low, high=high, within=within) for of, (k, low, high) in pairs.items()]


def _scroll_sides(scrolls: Sequence[Scroll], level: complex) -> list[_Sides]:
    found = []
    for scroll in scrolls:
        left, top, right, bottom = _extent(scroll.bar, level)
        of, within = scroll.bar.id, max(_LEAST, (scroll.bar.width or 0.0) / 2)
        found.append(_Sides(of=of, axis=0, low=left, high=right, middle=(top + bottom) / 2, within=within))
        found.append(_Sides(of=of, axis=1, low=top, high=bottom, middle=(left + right) / 2, within=within))
    return found


def _extent(bar: Bar, level: complex) -> tuple[float, float, float, float]:
    """Left, top, right, bottom of a bar's metal along the axes."""
    half = (bar.width or 0.0) / 2
    points = bar.line.path
    if bar.drawn_as is DrawnAs.OUTLINE and bar.metal is not None and not bar.metal.empty:
        points, half = np.concatenate([ring.path for ring in bar.metal.outer]), 0.0
    along = points * level
    x, y = along.real, along.imag
    return float(x.min()) - half, float(y.min()) - half, float(x.max()) + half, float(y.max()) + half
