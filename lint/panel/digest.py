"""The fingerprint of a panel: it moves with the metal, not with colours, ids, order or editor state.

Covered: roles, metal (middle lines, widths, depths), marks, scale and stated sizes, lengths rounded to 0.01 mm from
the frame's upper left corner. Path direction, start point and splitting make no difference.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterator

import numpy as np

from lint.panel.panel import Panel
from lint.panel.parts import Bar, Point, Scroll

STEP = 0.01  # mm
# Drawn lengths are mostly whole multiples of 0.001 mm or of a fraction of an inch: cells are shifted so that those lie
# well inside a cell, and the rounding of an editor's last digit does not move a figure to the next one.
SHIFT = 0.35
_PLACES = np.array([0.0, 0.25, 0.5, 0.75, 1.0])

Cell = tuple[object, ...]


def digest_of(panel: Panel) -> str:
    """SHA-256 (hex) over the panel's cells, sorted."""
    cells = sorted(repr(cell) for cell in _cells(panel))
    return hashlib.sha256("\n".join(cells).encode()).hexdigest()


def _cells(panel: Panel) -> Iterator[Cell]:
    yield ("scale", panel.scale.known, f"{panel.scale.mm_per_unit:.6g}")
    for role, bars in (("frame", panel.frame.members if panel.frame else ()), ("bar", panel.bars)):
        yield from (_bar(role, bar, panel, ("", "")) for bar in bars)
    for role, scrolls in (("scroll", panel.scrolls), ("sample", panel.samples)):
        yield from (_bar(role, scroll.bar, panel, _end_names(scroll)) for scroll in scrolls)
    for fastener in panel.fasteners:
        yield ("fastener", fastener.kind, *_spot(fastener.at, panel), *map(_cell, fastener.size))
    for joint in panel.frame.joints if panel.frame else ():
        yield ("joint", joint.kind, *_spot(joint.at, panel))
    for corner in panel.frame.corners if panel.frame else ():
        if corner.inside_radius is not None:
            yield ("radius", *_spot(corner.at, panel), _cell(corner.inside_radius))
    for size in panel.dimensions:
        stated = size.text if size.stated is None else _cell(size.stated)
        yield ("size", stated, _cell(size.drawn), *sorted(_spot(at, panel) for at in size.between))


def _end_names(scroll: Scroll) -> tuple[str, str]:
    return scroll.ends[0].name or "", scroll.ends[1].name or ""


def _bar(role: str, bar: Bar, panel: Panel, ends: tuple[str, str]) -> Cell:
    section = tuple(None if side is None else _cell(side) for side in (bar.width, bar.depth))
    if bar.line.closed:
        left, top, right, bottom = bar.line.extent
        box = (*_spot((left, top), panel), *_spot((right, bottom), panel))
        return (role, "closed", section, box, _cell(bar.line.length))
    spots = [_spot((float(x), float(y)), panel) for x, y in bar.line.at(_PLACES * bar.line.length)]
    run = min((tuple(spots), ends), (tuple(spots[::-1]), ends[::-1]))
    return (role, "open", section, run)


def _spot(at: Point, panel: Panel) -> tuple[int, int]:
    x, y = panel.from_origin(at)
    return _cell(x), _cell(y)


def _cell(mm: float) -> int:
    return math.floor(mm / STEP + SHIFT)
