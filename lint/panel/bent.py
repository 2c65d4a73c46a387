"""A bar's centreline as the bar was bent: what the shape of an end adds to the middle of an outline is no bend."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve
from lint.geometry.onward import onward
from lint.panel.parts import Bar, DrawnAs
from lint.values import dataclass

Floats = NDArray[np.float64]

# An end is looked for so many bar widths from the tip, where the bar is over so many times its width.
SWOLLEN_WITHIN, SWOLLEN = 6.0, 1.15

# Or under so many times its width, from within so many widths on: a point or a chisel edge, which draws the middle of
# the metal aside from half a width before it. What thins for longer is a bar that was drawn out.
THIN_WITHIN, THIN, THIN_NECK = 2.0, 0.95, 0.5

# The last of the middle line, in bar widths, is drawn on by the outline's reader: its chords have no edge beyond them.
# They are true to a hundredth of a degree before that, and some degrees out in an eye as narrow as the bar's half.
UNREAD = 0.4

# A round cap's edge lies on its half circle within so much of its radius, over so much of it to either side (radians).
ROUND, CAP = 0.06, 1.3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bent:
    """A centreline from end to end of the bend, and how far its turning may be out at the first and at the last end,
    degrees: as much as the growth of the bend there adds (errors on logarithmic spirals are under 0.8 of it, down to an
    eye of a tenth of the bar's width)."""

    line: Curve
    doubt: tuple[float, float]


def bent_line(bar: Bar) -> Bent:
    """A bar's centreline as the bar was bent. A line as it was drawn; an outline's with what is not read of its ends
    gone on as the bar bent before them.

    What is not read is the last of the middle line; a ball, roll or fishtail and the neck before it; a point. A round
    cap is no part of the bend, as it is none of a line that is drawn with one; the rest is gone on for as long as it
    was.
    """
    if bar.drawn_as is not DrawnAs.OUTLINE or bar.line.closed or bar.width is None or bar.widths is None:
        return Bent(line=bar.line, doubt=(0.0, 0.0))
    back = bar.line.reversed()
    first, last = swollen(bar)
    tips = _tip(bar, back, bar.widths[::-1], first), _tip(bar, bar.line, bar.widths, last)
    one = onward(back, bar.width, left_out=tips[0][0], short=tips[0][1])
    other = onward(one.line.reversed(), bar.width, left_out=tips[1][0], short=tips[1][1])
    return Bent(line=other.line, doubt=(one.doubt, other.doubt))


def swollen(bar: Bar) -> tuple[float, float]:
    """How far from each tip (mm) the bar is wider than it ordinarily is, and one width more for the neck; 0 where its
    end is no wider."""
    if bar.widths is None or bar.width is None:
        return 0.0, 0.0
    at = bar.line.stations[: len(bar.widths)]
    wide = bar.widths > SWOLLEN * bar.width
    reaches = (tips[wide & (tips < SWOLLEN_WITHIN * bar.width)] for tips in (at, bar.line.length - at))
    first, last = (float(reach.max()) + bar.width if len(reach) else 0.0 for reach in reaches)
    return first, last


def _tip(bar: Bar, line: Curve, widths: Floats, wide: float) -> tuple[float, float]:
    """What is not read of the line's last end, and how far the bend ends before it, mm."""
    width = bar.width or 0.0
    if wide:
        return wide, 0.0
    radius = _cap(bar, line, widths)
    if radius:
        return radius + UNREAD * width, radius
    back = line.length - line.stations
    thick = back[widths >= THIN * width]
    thin = float(thick.min()) if len(thick) else 0.0
    pointed = UNREAD * width < thin <= THIN_WITHIN * width
    return thin + THIN_NECK * width if pointed else UNREAD * width, 0.0


def _cap(bar: Bar, line: Curve, widths: Floats) -> float:
    """The radius of the half circle that the metal ends in, mm; 0 where it ends otherwise."""
    width = bar.width or 0.0
    radius = float(np.interp(line.length - width, line.stations, widths)) / 2
    if bar.metal is None or radius <= 0:
        return 0.0
    ring = max(bar.metal.outer, key=lambda outer: outer.length)
    tip, _ = ring.nearest(line.points[-1])
    edge = ring.at(tip + radius * np.linspace(-CAP, CAP, 27))
    off = np.hypot(*(edge - line.at(line.length - radius)).T) - radius
    return radius if np.abs(off).max() <= ROUND * radius else 0.0
