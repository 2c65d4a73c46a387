"""The full-size pattern of the whole panel, to lay the forged parts on."""

from __future__ import annotations

import numpy as np

from lint.panel.panel import Panel
from lint.panel.parts import Bar, Fastener, Frame, Scroll
from lint.sheet.sheet import Sheet
from lint.shop.bars import shown_name
from lint.shop.faces import centre_stroke, face_strokes
from lint.shop.lettering import Ground
from lint.shop.pattern import FIGURES, NAMES, Pattern, Pen, Point, Stroke, Words, dense
from lint.shop.tiling import room_on
from lint.shop.wording import length, with_unit
from lint.shown import shown


def panel_pattern(panel: Panel, sheet: Sheet, *, paper: str = "sheet") -> Pattern | None:
    """Frame, bars, collars, rivets and joints as they lie, with the names of scrolls and ends; None where the
    drawing has no metal. Samples are shown by their own patterns only."""
    bars = [*(scroll.bar for scroll in panel.scrolls), *panel.bars]
    framed = _frame_strokes(panel.frame)
    if not bars and not framed:
        return None
    strokes = [*framed]
    for bar in bars:
        if bar.width is not None:
            strokes += face_strokes(bar, bar.width)
        elif bar.metal is not None:
            strokes += [Stroke(pen=Pen.FACE, points=np.array(ring), closed=True) for ring in bar.metal.rings]
        if not bar.unread:
            strokes.append(centre_stroke(bar))
    strokes += [stroke for fastener in panel.fasteners for stroke in _fastener(fastener)]
    strokes += [_cross(joint.at) for joint in (panel.frame.joints if panel.frame else ())]
    words, leaders = _words(panel, strokes, paper)
    return Pattern(
        name="The whole panel",
        facts=_facts(panel, sheet.units),
        listing=("Lay each forged part on it: to bend by eye, to set collars, to drill.",),
        strokes=(*strokes, *leaders),
        words=tuple(words),
    )


def _frame_strokes(frame: Frame | None) -> list[Stroke]:
    if frame is None:
        return []
    if frame.metal is None:
        return [centre_stroke(bar) for bar in frame.members]
    return [Stroke(pen=Pen.FRAME, points=np.array(ring), closed=True) for ring in frame.metal.rings]


def _fastener(fastener: Fastener) -> list[Stroke]:
    return [Stroke(pen=Pen.FASTENER, points=np.array(ring), closed=True) for ring in fastener.area.rings]


def _cross(at: Point, reach: float = 4.0) -> Stroke:
    x, y = at
    points = [[x - reach, y - reach], [x + reach, y + reach], [x, y], [x - reach, y + reach], [x + reach, y - reach]]
    return Stroke(pen=Pen.POINT, points=np.array(points))


def _words(panel: Panel, strokes: list[Stroke], paper: str) -> tuple[list[Words], list[Stroke]]:
    """Names of scrolls beside their middles and of ends beside them, where there is room."""
    points = np.concatenate([stroke.points for stroke in strokes])
    (left, top), (right, bottom) = points.min(axis=0), points.max(axis=0)
    room = room_on((float(left), float(top), float(right), float(bottom)), 0.0, paper)
    ground = Ground([(dense(stroke.points, stroke.closed), 0.3) for stroke in strokes], room)
    words: list[Words] = []
    leaders: list[Stroke] = []
    for at, out, said, high in _wanted(panel):
        found = ground.set_down(at, out, said, high, half=4.0, strong=high >= NAMES)
        if found:
            words.append(found[0])
            leaders += [found[1]] if found[1] else []
    return words, leaders


def _wanted(panel: Panel) -> list[tuple[Point, Point, str, float]]:
    wanted = []
    for scroll in panel.scrolls:
        family = f" (former {scroll.family})" if scroll.family else ""
        at, out = _inside(scroll.bar)
        wanted.append((at, out, f"{shown(shown_name(scroll.bar), 40)}{family}", NAMES))
    ends = [(end.at, _away(scroll, n), shown(end.name or end.written, 40)) for scroll in panel.scrolls
            for n, end in enumerate(scroll.ends)]  # fmt: skip
    return [*wanted, *((at, out, name, FIGURES) for at, out, name in ends if name)]


def _inside(bar: Bar) -> tuple[Point, Point]:
    """The middle of a bar, and the way from it to the middle of its extent."""
    x, y = bar.line.at(bar.line.length / 2)
    left, top, right, bottom = bar.line.extent
    way = np.array([(left + right) / 2 - x, (top + bottom) / 2 - y])
    size = float(np.hypot(*way))
    out = way / size if size > 1e-6 else np.array([1.0, 0.0])
    return (float(x), float(y)), (float(out[0]), float(out[1]))


def _away(scroll: Scroll, number: int) -> Point:
    line = scroll.bar.line
    way = line.tangent(0.0) * -1 if number == 0 else line.tangent(line.length)
    return float(way[0]), float(way[1])


def _facts(panel: Panel, units: str) -> tuple[str, ...]:
    frame = panel.frame
    if frame is None or frame.outside is None:
        return ("The drawing has no closed frame.",)
    outside = f"{length(frame.outside[0], units)} x {with_unit(frame.outside[1], units)} outside"
    square = f"; diagonals {' and '.join(with_unit(d, units) for d in frame.diagonals)}" if frame.diagonals else ""
    return (
        f"Frame {outside}{square}.",
        "Seen from the front. Check the diagonals on the bench before you trust the paper.",
    )
