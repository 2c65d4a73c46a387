"""A photograph of the forged piece, traced in the editor: its frame, its scrolls and its known lengths, in pixels.

The tracing follows the drawing's own convention: a layer `frame` with one closed line along the frame's outside
edge, a layer `scrolls` with one line along the middle of each bar, and, as a check, a `dimension`: a line with
its true length as a text beside it. Photographs are taken at an angle, so nothing here is in millimetres.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lint.drawing import read
from lint.drawing.drawn import Drawn, Words
from lint.errors import UnreadableDrawing
from lint.geometry.curve import Curve
from lint.geometry.fitting import FittedLine, crossing, fit_line
from lint.lengths import parse
from lint.panel.parts import Role
from lint.panel.roles import Roles
from lint.sheet.sheet import Sheet
from lint.values import dataclass

Floats = NDArray[np.float64]
_FLAT = 1e-4  # of the tracing's extent: how closely curves are followed
_TRIM = 0.08  # of a side at each end: left out of its fitted line, for corners are rounded or overrun


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class KnownLength:
    """A line of the tracing (page units) and the length that stands beside it, mm."""

    ends: tuple[tuple[float, float], tuple[float, float]]
    length: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tracing:
    """`corners` (4, 2) of the frame's outside, in order round it; `sides` the traced points of each side between
    them; `scrolls` the traced middles; all in page units, y down. `unread` counts objects with no use here."""

    corners: Floats
    sides: tuple[Floats, Floats, Floats, Floats]
    scrolls: tuple[Curve, ...]
    known: tuple[KnownLength, ...]
    unread: int


def read_tracing(data: bytes, sheet: Sheet) -> Tracing:
    """The tracing in an SVG. Raises UnreadableDrawing with a sentence where it has no frame or no scroll."""
    drawing = read(data)
    roles = Roles(sheet)
    shapes: dict[Role | None, list[Drawn]] = {}
    for drawn in drawing.drawn:
        shapes.setdefault(roles.of(drawn), []).append(drawn)
    frame, scrolls = shapes.get(Role.FRAME, []), shapes.get(Role.SCROLL, [])
    if not frame:
        raise UnreadableDrawing(
            "The tracing has no frame: trace the frame's outside edge as one closed line on a layer called frame."
        )
    if not scrolls:
        raise UnreadableDrawing("The tracing has no scroll: trace each scroll's middle on a layer called scrolls.")
    corners, sides = _quadrilateral(_points(frame))
    words = [w for w in drawing.words if roles.of(w) is Role.DIMENSION]
    known = _known(shapes.get(Role.DIMENSION, []), words, sheet.units)
    curves = tuple(c.flattened(_accuracy(c.cubics)) for drawn in scrolls for c in drawn.chains if len(c.cubics))
    used = {Role.FRAME, Role.SCROLL, Role.DIMENSION}
    unread = sum(len(those) for role, those in shapes.items() if role not in used)
    return Tracing(corners=corners, sides=sides, scrolls=curves, known=known, unread=unread)


def _accuracy(cubics: Floats) -> float:
    return max(1e-9, _FLAT * float(np.ptp(cubics.reshape(-1, 2), axis=0).max()))


def _points(frame: list[Drawn]) -> Floats:
    """Points close along every frame line, in page units."""
    rows = []
    for drawn in frame:
        for chain in drawn.chains:
            if len(chain.cubics):
                line = chain.flattened(_accuracy(chain.cubics))
                rows.append(line.resampled(line.length / 400).points)
    if not rows:
        raise UnreadableDrawing("The traced frame has no line in it.")
    return np.concatenate(rows)


def _quadrilateral(points: Floats) -> tuple[Floats, tuple[Floats, Floats, Floats, Floats]]:
    """The four corners of the largest outline, each where the lines fitted to two sides cross."""
    rough = _four(_hull(points))
    on_side = _sides(points, rough)
    lines: list[FittedLine] = []
    for n, side in enumerate(on_side):
        if len(side) < 3:
            raise UnreadableDrawing(
                f"Side {n + 1} of the traced frame has too few points: trace all four sides of its outside edge."
            )
        lines.append(fit_line(side))
    corners = [crossing(lines[n - 1], lines[n]) for n in range(4)]
    if any(corner is None for corner in corners):
        raise UnreadableDrawing("Two neighbouring sides of the traced frame are parallel, so it has no four corners.")
    return np.array(corners, dtype=np.float64), (on_side[0], on_side[1], on_side[2], on_side[3])


def _sides(points: Floats, rough: Floats) -> list[Floats]:
    """For each side of the rough quadrilateral, the points that lie along it, its ends left out."""
    found = []
    for n in range(4):
        a, b = rough[n], rough[(n + 1) % 4]
        along = (b - a) / np.linalg.norm(b - a)
        share = (points - a) @ along / np.linalg.norm(b - a)
        off = np.abs((points - a) @ np.array([-along[1], along[0]]))
        close = off < 0.03 * np.linalg.norm(b - a)
        found.append(points[close & (share > _TRIM) & (share < 1 - _TRIM)])
    return found


def _hull(points: Floats) -> Floats:
    """The convex hull, in order (Andrew's monotone chain, Inf. Proc. Letters 9, 1979)."""
    ordered = sorted(map(tuple, points))

    def half(rows: list[tuple[float, ...]]) -> list[tuple[float, ...]]:
        chain: list[tuple[float, ...]] = []
        for p in rows:
            while len(chain) > 1 and _turn(chain[-2], chain[-1], p) <= 0:
                chain.pop()
            chain.append(p)
        return chain[:-1]

    hull = half(ordered) + half(ordered[::-1])
    if len(hull) < 4:
        raise UnreadableDrawing("The traced frame is no quadrilateral: trace all four sides of its outside edge.")
    return np.array(hull)


def _turn(a: tuple[float, ...], b: tuple[float, ...], c: tuple[float, ...]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _four(hull: Floats) -> Floats:
    """The hull with its flattest corners taken away until four are left."""
    corners = list(hull)
    while len(corners) > 4:
        areas = [
            abs(_turn(tuple(corners[n - 1]), tuple(corners[n]), tuple(corners[(n + 1) % len(corners)])))
            for n in range(len(corners))
        ]
        corners.pop(int(np.argmin(areas)))
    return np.array(corners)


def _known(shapes: list[Drawn], words: list[Words], units: str) -> tuple[KnownLength, ...]:
    """Each dimension line with the nearest length that stands beside it."""
    found = []
    for drawn in shapes:
        for chain in drawn.chains:
            if not len(chain.cubics) or chain.closed or not words:
                continue
            a, b = chain.cubics[0, 0], chain.cubics[-1, 3]
            middle = (a + b) / 2
            text = min(words, key=lambda w: float(np.hypot(*(_centre(w) - middle))))
            try:
                length = parse(text.text, units)
            except ValueError:
                continue
            ends = ((float(a[0]), float(a[1])), (float(b[0]), float(b[1])))
            found.append(KnownLength(ends=ends, length=length, text=text.text))
    return tuple(found)


def _centre(words: Words) -> Floats:
    left, top, right, bottom = words.extent
    return np.array([(left + right) / 2, (top + bottom) / 2])
