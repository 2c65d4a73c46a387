"""Bars, frames and drawings made of numbers, for tests that need no editor's file."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from lint.drawing import read
from lint.geometry.band import band
from lint.geometry.curve import curve
from lint.panel import build
from lint.panel.fasteners import FastenerMark
from lint.panel.panel import Panel
from lint.panel.parts import Bar, DrawnAs, Origin
from lint.sheet import load_default
from lint.sheet.sheet import Sheet

Floats = NDArray[np.float64]
SHEET = load_default()
FRAME_BAR = 12.0


def bar(name: str, points: Iterable[tuple[float, float]] | Floats, width: float = 6.0, *, closed: bool = False) -> Bar:
    """A bar along a centreline, mm."""
    line = curve(np.asarray(list(points) if not isinstance(points, np.ndarray) else points, dtype=float), closed)
    return Bar(
        id=name,
        origin=Origin(line=1, id=name, layer="scrolls"),
        line=line,
        width=width,
        depth=None,
        metal=band(line, width),
        drawn_as=DrawnAs.CENTRELINE,
    )


def arc(x: float, y: float, radius: float, start: float = 0.0, end: float = 360.0) -> Floats:
    """Points on an arc (degrees, clockwise on the page), a chord for each half degree."""
    angles = np.radians(np.linspace(start, end, int(abs(end - start) * 2) + 1))
    return np.column_stack([x + radius * np.cos(angles), y + radius * np.sin(angles)])


def mark(kind: str, name: str, at: tuple[float, float], across: float, along: float | None = None) -> FastenerMark:
    """A fastener: a round one of a diameter, or a box across by along, mm."""
    from lint.geometry.area import area, disc

    if along is None:
        shape, size = disc(*at, across / 2), (across, across)
    else:
        x, y, w, h = *at, across / 2, along / 2
        shape = area([np.array([(x - w, y - h), (x + w, y - h), (x + w, y + h), (x - w, y + h)])])
        size = (max(across, along), min(across, along))
    return FastenerMark(
        kind=kind, id=name, origin=Origin(line=1, id=name, layer=f"{kind}s"), at=at, size=size, area=shape
    )


def drawing(*shapes: str, inside: tuple[float, float] = (300.0, 300.0), layers: str = "", width: float = 6.0) -> bytes:
    """A drawing in mm: a frame of 12 mm bar, `inside` wide and high within, its inner corner at (0, 0); `shapes`
    are path data or whole elements on the layer bars, stroked `width` mm; `layers` is added as it is."""
    w, h, b = *inside, FRAME_BAR
    elements = [s if s.startswith("<") else f'<path id="bar-{k}" d="{s}"/>' for k, s in enumerate(shapes, 1)]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{w + 2 * b}mm" height="{h + 2 * b}mm" '
        f'viewBox="{-b} {-b} {w + 2 * b} {h + 2 * b}">'
        f'<g id="frame" fill="none" stroke="#000" stroke-width="{b}">'
        f'<rect id="frame-1" x="{-b / 2}" y="{-b / 2}" width="{w + b}" height="{h + b}"/></g>'
        f'<g id="bars" fill="none" stroke="#000" stroke-width="{width}">{"".join(elements)}</g>{layers}</svg>'
    ).encode()


def panel(data: bytes, sheet: Sheet = SHEET) -> Panel:
    """The panel of a drawing."""
    return build(read(data), sheet)


def ring(x: float, y: float, radius: float, width: float = 6.0) -> str:
    """A ring of bar whose outer edge is a circle of `radius` mm."""
    return f'<circle id="ring-{x:g}-{y:g}" cx="{x}" cy="{y}" r="{radius - width / 2}"/>'
