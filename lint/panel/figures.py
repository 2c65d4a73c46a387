"""A panel as rows of figures: what an approval keeps, and what a later drawing is held against.

A row is a part with its words and its numbers. Two panels whose rows agree within a hundredth of a millimetre or
so are the same panel: another editor's save moves figures that much, a person's change moves them more.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve
from lint.panel.panel import Panel
from lint.panel.parts import Bar, Frame, Point, Scroll
from lint.sheet.approved import Agreed

Floats = NDArray[np.float64]
STATIONS = 13  # places along a bar that are kept: a bar bent elsewhere moves one of them or its length


def figures_of(panel: Panel) -> tuple[Agreed, ...]:
    """Every part of the panel as a row, in a stable order; mm from the frame's upper left outside corner."""
    return tuple(_rows(panel))


def _rows(panel: Panel) -> Iterator[Agreed]:
    yield Agreed(kind="scale", name="scale", what="known" if panel.scale.known else "none", figures=())
    if panel.frame is not None:
        yield from _frame(panel.frame, panel.origin)
    for word, scrolls in (("scroll", panel.scrolls), ("sample", panel.samples)):
        for n, scroll in enumerate(_in_place(scrolls), 1):
            yield from _scroll(scroll, f"{word} {n}", word, panel.origin)
    for n, bar in enumerate(sorted(panel.bars, key=lambda b: _middle(b.line)), 1):
        yield Agreed(kind="bar", name=f"bar {n}", what=bar.drawn_as.value, figures=_bar(bar, panel.origin))
    counts: dict[str, int] = {}
    for fastener in sorted(panel.fasteners, key=lambda f: (f.kind, *_rounded(f.at))):
        n = counts[fastener.kind] = counts.get(fastener.kind, 0) + 1
        numbers = (*_from(fastener.at, panel.origin), *sorted(fastener.size))
        yield Agreed(kind=fastener.kind, name=f"{fastener.kind} {n}", what=fastener.kind, figures=numbers)
    for n, size in enumerate(sorted(panel.dimensions, key=lambda d: (d.of, d.text, *_rounded(d.between[0]))), 1):
        figures = () if size.stated is None else (size.stated, size.drawn)
        yield Agreed(kind="dimension", name=f"stated size {n}", what=size.of and "of a part", figures=figures)


def _frame(frame: Frame, origin: Point) -> Iterator[Agreed]:
    outside = frame.outside or ()
    yield Agreed(
        kind="frame",
        name="frame",
        what="closed" if frame.closed else "open",
        figures=(*outside, frame.bar_width or 0.0),
    )
    for n, corner in enumerate(frame.corners, 1):
        radii = (corner.outside_radius or 0.0, corner.inside_radius or 0.0)
        figures = (*_from(corner.at, origin), corner.angle, *radii)
        yield Agreed(kind="corner", name=f"corner {n}", what=corner.made, figures=figures)
    for n, joint in enumerate(sorted(frame.joints, key=lambda j: _rounded(j.at)), 1):
        yield Agreed(kind="joint", name=f"joint {n}", what=joint.kind, figures=_from(joint.at, origin))


def _scroll(scroll: Scroll, name: str, kind: str, origin: Point) -> Iterator[Agreed]:
    yield Agreed(kind=kind, name=name, what=scroll.kind, figures=_bar(scroll.bar, origin))
    for end in sorted(scroll.ends, key=lambda e: _rounded(e.at)):
        words = end.name or "no name"
        yield Agreed(kind="end", name=f"end of {name}", what=words, figures=_from(end.at, origin))


def _bar(bar: Bar, origin: Point) -> tuple[float, ...]:
    """Width, length, and places along the bar from its end that lies first (leftmost, then uppermost)."""
    line = bar.line
    stations = np.linspace(0.0, line.length, STATIONS)
    places: Floats = line.at(stations) - np.asarray(origin)
    if tuple(np.round(places[-1], 1)) < tuple(np.round(places[0], 1)):
        places = places[::-1]
    return (bar.width or 0.0, line.length, *(float(v) for v in places.ravel()))


def _in_place(scrolls: tuple[Scroll, ...]) -> list[Scroll]:
    return sorted(scrolls, key=lambda scroll: _middle(scroll.bar.line))


def _middle(line: Curve) -> tuple[float, float]:
    left, top, right, bottom = line.extent
    return _rounded(((left + right) / 2, (top + bottom) / 2))


def _rounded(point: Point) -> tuple[float, float]:
    """Down first, then across, coarse enough that a re-save does not change the order."""
    return (round(point[1]), round(point[0]))


def _from(point: Point, origin: Point) -> tuple[float, float]:
    return (point[0] - origin[0], point[1] - origin[1])
