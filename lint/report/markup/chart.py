"""From the panel's millimetres to the page, and what of the page is taken by metal."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lint.panel.panel import Panel
from lint.panel.parts import Bar

Floats = NDArray[np.float64]
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Chart:
    """`zero` is the panel's zero in page units, `scale` real mm for each page unit."""

    zero: Point
    scale: float

    @classmethod
    def of(cls, panel: Panel) -> Chart:
        """The chart of a panel."""
        return cls(panel.page_zero, panel.scale.mm_per_unit)

    def at(self, point: Point) -> Point:
        """A place of the panel (mm) in page units."""
        return self.zero[0] + point[0] / self.scale, self.zero[1] + point[1] / self.scale

    def many(self, points: Floats) -> Floats:
        """Places of the panel, shape (n, 2), in page units."""
        moved: Floats = points / self.scale + np.asarray(self.zero)
        return moved

    def long(self, mm: float) -> float:
        """A real length in page units."""
        return mm / self.scale


def bars_of(panel: Panel) -> tuple[Bar, ...]:
    """Every bar of the drawing: frame members, scrolls, infill bars, samples."""
    members = panel.frame.members if panel.frame else ()
    return (*members, *(s.bar for s in panel.scrolls), *panel.bars, *(s.bar for s in panel.samples))


def extent_of(panel: Panel) -> tuple[float, float, float, float] | None:
    """Left, top, right, bottom of all metal, fasteners and dimensions in mm; None where there is none.

    A part that strayed more than a page away from the page is left out, unless all of them did: then the frame, or
    else everything, is what the drawing is about.
    """
    pieces = [_extent(bar) for bar in bars_of(panel)]
    pieces += [np.asarray([f.at, f.at], dtype=np.float64) for f in panel.fasteners]
    pieces += [np.sort(np.asarray(d.between, dtype=np.float64), axis=0) for d in panel.dimensions]
    if not pieces:
        return None
    near = [p for p in pieces if panel.page_extent is None or _near(p, panel.page_extent)]
    members = panel.frame.members if panel.frame else ()
    points = np.concatenate(near or [_extent(member) for member in members] or pieces)
    (left, top), (right, bottom) = points.min(axis=0), points.max(axis=0)
    return float(left), float(top), float(right), float(bottom)


def _near(piece: Floats, page: tuple[float, float, float, float]) -> bool:
    size = np.asarray([page[2] - page[0], page[3] - page[1]])
    return bool(np.all(piece[0] > np.asarray(page[:2]) - size) and np.all(piece[1] < np.asarray(page[2:]) + size))


def _extent(bar: Bar) -> Floats:
    half = (bar.width or 0.0) / 2
    points = bar.line.points
    return np.asarray([points.min(axis=0) - half, points.max(axis=0) + half])
