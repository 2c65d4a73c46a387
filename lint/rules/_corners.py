"""What the rules of the corners share."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from lint.lengths import say
from lint.panel.panel import Panel
from lint.panel.parts import Corner
from lint.result import Circle, Point, Result, Source
from lint.rules._places import source
from lint.rules._rule import not_applicable
from lint.sheet.sheet import Sheet


def without_corners(rule_id: str, panel: Panel) -> Result | None:
    """Why a rule about corners is not judged, or None."""
    if panel.frame is None:
        return not_applicable(rule_id, "the drawing has no frame", because="frame")
    if not panel.frame.closed:
        return not_applicable(rule_id, "the frame is open", because="frame")
    if len(panel.frame.corners) != 4:
        return not_applicable(rule_id, "the frame has no four corners to judge", because="frame")
    return None


def corner_source(panel: Panel, corner: Corner) -> Source:
    """Where the bar at a corner of the frame was drawn: the member whose line is nearest."""
    return _corner_sources(panel)[corner.at]


@lru_cache(maxsize=1)
def _corner_sources(panel: Panel) -> dict[Point, Source]:
    """The same for every corner, by its place: all corners against all chords of the members in one go."""
    members, corners = (panel.frame.members, panel.frame.corners) if panel.frame else ((), ())
    if not members:
        return dict.fromkeys((corner.at for corner in corners), Source())
    runs = [bar.line.run @ (1, 1j) for bar in members]  # as complex numbers
    starts, chords = np.concatenate([run[:-1] for run in runs]), np.concatenate([run[1:] - run[:-1] for run in runs])
    away = np.array([complex(*corner.at) for corner in corners])[:, None] - starts
    off = np.abs(away - (away / chords).real.clip(0.0, 1.0) * chords)
    whose = np.repeat(np.arange(len(runs)), [len(run) - 1 for run in runs])
    nearest = whose[off.argmin(axis=1)].tolist()
    return {corner.at: source(members[k].origin) for corner, k in zip(corners, nearest, strict=True)}


def bar_of(panel: Panel) -> float:
    """The width of the frame's bar, mm; 0 where it is not known."""
    return (panel.frame.bar_width if panel.frame else None) or 0.0


def length_said(radius: float, panel: Panel, sheet: Sheet) -> str:
    """A length; in bar widths where the drawing has no scale."""
    if panel.scale.known:
        return say(radius, sheet.units)
    return f"{radius / bar_of(panel):.2f} bar widths" if bar_of(panel) else "no length"


def rounding_circle(corner: Corner, radius: float, *, inside: bool) -> Circle:
    """The circle of a rounding where it stands: on the corner's middle line, radius over the sine of half the angle
    from where the sides cross. mm."""
    start = corner.inner if inside and corner.inner else corner.at
    inner = corner.inner or corner.at
    long = math.dist(inner, corner.at)
    away = radius / math.sin(math.radians(corner.angle) / 2) if long > 0 else 0.0
    x, y = (s + (i - o) / max(long, 1e-12) * away for s, i, o in zip(start, inner, corner.at, strict=True))
    return Circle(x=x, y=y, diameter=2 * radius)
