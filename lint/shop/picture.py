"""Small pictures for the printed stock list: a bar's line, and how a bar from the rack is cut. SVG strings."""

from __future__ import annotations

import numpy as np

from lint.geometry.curve import Curve
from lint.shop.cutting import CutBar
from lint.shop.wording import escaped, length

WIDE, TALL = 44.0, 30.0  # mm on paper
STRIP_WIDE, STRIP_TALL = 182.0, 9.0


def picture(line: Curve, width: float | None, title: str) -> str:
    """A bar as it will look, fitted into 44 x 30 mm, its width to the same scale (at least a hairline)."""
    points = line.points if len(line.points) <= 400 else line.resampled(line.length / 400).points
    low, high = points.min(axis=0), points.max(axis=0)
    span = np.maximum(high - low, 1e-6)
    room = np.array([WIDE - 6, TALL - 6])
    scale = float((room / span).min())
    shown = (points - (low + high) / 2) * scale + np.array([WIDE, TALL]) / 2
    told = " ".join(f"{x:.2f},{y:.2f}" for x, y in shown)
    tag = "polygon" if line.closed else "polyline"
    stroke = max(0.5, min((width or 0.0) * scale, 4.0))
    return (
        f'<svg class="bar" viewBox="0 0 {WIDE:g} {TALL:g}" role="img"><title>{escaped(title)}</title>'
        f'<{tag} points="{told}" fill="none" stroke="#333" stroke-width="{stroke:.2f}" stroke-linejoin="miter"/></svg>'
    )


def strip(bar: CutBar, longest: float, units: str) -> str:
    """A bar from the rack with its pieces as boxes, to scale along the bar; what is left over is hatched."""
    scale = STRIP_WIDE / longest
    parts, x = [], 0.0
    for piece in bar.pieces:
        wide = piece.length * scale
        parts.append(f'<rect x="{x:.2f}" y="0.5" width="{wide:.2f}" height="8" class="piece"/>')
        parts.append(_label(x + wide / 2, wide, length(piece.length, units, 0)))
        parts.append(f"<title>{escaped(piece.name)}</title>" if len(bar.pieces) == 1 else "")
        x += wide + (bar.stock - bar.left - sum(p.length for p in bar.pieces)) * scale / len(bar.pieces)
    rest = max(0.0, bar.stock * scale - x)
    parts.append(f'<rect x="{x:.2f}" y="0.5" width="{rest:.2f}" height="8" class="rest"/>')
    parts.append(_label(x + rest / 2, rest, f"{length(bar.left, units, 0)} left"))
    return f'<svg class="strip" viewBox="-0.3 0 {STRIP_WIDE + 0.6:g} {STRIP_TALL:g}" role="img">{"".join(parts)}</svg>'


def _label(x: float, room: float, words: str) -> str:
    """Words in a box, left out where they would not fit: a digit of 2.5 mm lettering is about 1.5 mm wide."""
    if len(words) * 1.5 > room:
        return ""
    return f'<text x="{x:.2f}" y="5.5" font-size="2.5" text-anchor="middle">{words}</text>'
