"""The holes of the panel: what is left free inside the frame, and the largest circle in each."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lint.geometry.area import Area, area, disc, union
from lint.geometry.circle import largest_circles
from lint.geometry.faces import faces
from lint.panel.parts import Bar, Contact, Fastener, Frame, Opening
from lint.sheet.sheet import Sheet

Floats = NDArray[np.float64]

BRIDGE = 0.05  # mm: what parts two openings at a touch; it lies in a cusp, far from any circle of note
SLIVER = 1.0  # mm2: what is left beside a touch drawn with rounding errors is no opening


def openings_of(
    frame: Frame | None,
    bars: Sequence[Bar],
    fasteners: Sequence[Fastener],
    contacts: Sequence[Contact],
    sheet: Sheet,
) -> tuple[Opening, ...]:
    """Every opening inside the frame, less all metal, with its largest circle within 0.02 mm; largest circle first.

    Openings part where bars touch, also where a hair's gap was drawn at the touch. Collars and rivets count as metal
    only where the sheet says so. () where the frame does not close. Bars whose
    width is not known have no metal: the rule that reads these openings must say so.
    """
    inside = _inside(frame)
    if inside is None:
        return ()
    metals = [bar.metal for bar in bars if bar.metal is not None]
    if frame and frame.metal:
        metals.append(frame.metal)
    if sheet.pass_through.fasteners_are_metal:
        metals += [fastener.area for fastener in fasteners]
    metals += [disc(*c.at, c.gap / 2 + BRIDGE) for c in contacts if not any(c.across)]
    free = [face for face in faces(inside, metals, _bridges(contacts)) if face.size >= SLIVER]
    circles = largest_circles(free)
    found = [
        Opening(area=face, at=(circle.x, circle.y), diameter=circle.diameter)
        for face, circle in zip(free, circles, strict=True)
    ]
    return tuple(sorted(found, key=_rank))


def _bridges(contacts: Sequence[Contact]) -> Floats:
    """A line across each touch, from metal to metal: shape (n, 2 ends, 2)."""
    rows = [(*c.at, *c.across, c.gap / 2 + BRIDGE) for c in contacts if any(c.across)]
    x, y, across, down, half = np.array(rows, dtype=np.float64).reshape(-1, 5).T
    ends = np.array([x - half * across, y - half * down, x + half * across, y + half * down])
    return ends.T.reshape(-1, 2, 2)


def _rank(hole: Opening) -> tuple[float, float, float]:
    """Largest first; like openings in order of place, whatever rounding left of their difference."""
    return -round(hole.diameter, 2), round(hole.at[0], 2), round(hole.at[1], 2)


def _inside(frame: Frame | None) -> Area | None:
    """All that the frame encloses."""
    if frame is None or not frame.closed or frame.inner is None:
        return None
    rings = [frame.inner, *(frame.metal.holes if frame.metal else ())]
    return union([area([ring.points]) for ring in rings])
