"""The full-size pattern of one scroll family: what the former follows, and where the bar is marked and bent."""

from __future__ import annotations

import numpy as np

from lint.geometry.curve import Curve
from lint.lengths import INCH
from lint.panel.panel import Panel
from lint.panel.parts import Bar, Scroll
from lint.sheet.sheet import Sheet
from lint.shop.bars import shown_name
from lint.shop.entries import Jig
from lint.shop.faces import centre_stroke, face_strokes, former_strokes, lobes_of, stepped, turned
from lint.shop.lettering import Ground
from lint.shop.pattern import FIGURES, NAMES, Floats, Pattern, Pen, Point, Stroke, Words, dense
from lint.shop.places import Place, places_on
from lint.shop.tiling import room_on
from lint.shop.wording import length, with_unit
from lint.shown import shown
from lint.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Bench:
    """What a pattern is drawn on: the bar, its width (mm), the sheet's unit, and the ground for words."""

    bar: Bar
    width: float
    units: str
    ground: Ground

    @property
    def line(self) -> Curve:
        return self.bar.line


def scroll_pattern(
    panel: Panel, family: tuple[Scroll, ...], jig: Jig, sheet: Sheet, *, lies: tuple[float, str] = (0.0, "sheet")
) -> Pattern:
    """The pattern of a family, drawn as its first scroll stands in the panel. `lies` is how far it is turned
    (degrees clockwise), and the paper to whose sheets its words keep. All places of its other scrolls are laid on it.
    """
    first, (turn, paper) = family[0], lies
    bar = turned(first.bar, turn)
    width = first.bar.width or sheet.stock.scroll.width
    centre = centre_stroke(bar)
    faces = face_strokes(bar, width)
    metal = [(centre.points, width / 2), *((dense(face.points, face.closed), 0.3) for face in faces)]
    ground = Ground(metal, room_on(bar.line.extent, width, paper))
    bench = _Bench(bar=bar, width=width, units=sheet.units, ground=ground)
    places = places_on(panel, family, sheet)
    parts = [
        _ends(bench, first),
        _bend_points(bench, sheet.scroll_count.turn),
        _placed(bench, places),
        _distances(bench),
    ]
    strokes = [*faces, *former_strokes(bar, width), centre]
    strokes += [stroke for drawn, _ in parts for stroke in drawn]
    return Pattern(
        name=f"Former {jig.family}: {first.kind} scroll" if first.kind in {"C", "S"} else f"Former {jig.family}",
        facts=_facts(bench, jig, turn),
        listing=_listing(first, jig, places, sheet.units),
        strokes=tuple(strokes),
        words=tuple(words for _, said in parts for words in said),
    )


Drawn = tuple[list[Stroke], list[Words]]


def _said(bench: _Bench, at: Point, out: Point, words: str, high: float, reach: float = 30.0) -> Drawn:
    """Words beside a place on the bar, or nothing where there is no room within `reach` mm."""
    half = bench.width / 2
    found = bench.ground.set_down(at, out, words, high, half=half, reach=reach, strong=high >= NAMES)
    if found is None:
        return [], []
    return ([found[1]] if found[1] else []), [found[0]]


def _frame_at(line: Curve, s: float) -> tuple[Point, Point, Point]:
    """The point at `s`, the way the line runs there, and the way to its outside (away from the inside of the bend)."""
    at, way = line.at(s), line.tangent(s)
    side = next((turn for start, end, turn in lobes_of(line) if start <= s <= end), 1.0)
    out = (float(way[1] * side), float(-way[0] * side))
    return (float(at[0]), float(at[1])), (float(way[0]), float(way[1])), out


def _ends(bench: _Bench, scroll: Scroll) -> Drawn:
    """A name at each end, and a bar across it."""
    strokes, said = [], []
    for s, title, end in ((0.0, "start", scroll.ends[0]), (bench.line.length, "end", scroll.ends[1])):
        at, way, out = _frame_at(bench.line, s)
        reach = bench.width / 2 + 1.5
        strokes.append(_across(at, out, reach, Pen.POINT))
        name = shown(end.name or end.written or "not named", 40)
        beyond = (-way[0], -way[1]) if s == 0 else way
        drawn, words = _said(bench, at, beyond, f"{title}: {name}", NAMES, 60.0)
        strokes += drawn
        said += words
    return strokes, said


def _across(at: Point, out: Point, reach: float, pen: Pen) -> Stroke:
    x, y = at
    return Stroke(
        pen=pen,
        points=np.array([[x - out[0] * reach, y - out[1] * reach], [x + out[0] * reach, y + out[1] * reach]]),
    )


def _bend_points(bench: _Bench, turn: float) -> Drawn:
    """Where an S changes its bend, and where each curl begins: from there to its end it turns `turn` degrees."""
    strokes: list[Stroke] = []
    said: list[Words] = []
    lobes = lobes_of(bench.line)
    named = [(end, "bend changes") for _, end, _ in lobes[:-1]]
    named += [(s, "curl begins") for s in curl_starts(bench.line, turn)]
    for s, name in named:
        at, _, out = _frame_at(bench.line, s)
        strokes.append(_diamond(at, 1.6))
        drawn, words = _said(bench, at, out, f"{name} {length(s, bench.units)}", NAMES, 60.0)
        strokes += drawn
        said += words
    return strokes, said


def curl_starts(line: Curve, turn: float) -> tuple[float, ...]:
    """Distances along the line, mm, from where each end's curl still turns `turn` degrees to that end; left out where
    an end's lobe does not turn so far."""
    s = stepped(line)
    way = line.tangent(s)
    heading = np.degrees(np.unwrap(np.arctan2(way[:, 1], way[:, 0])))
    lobes = lobes_of(line)
    found = []
    for lobe, from_end in ((lobes[0], False), (lobes[-1], True)):
        inside = (s >= lobe[0]) & (s <= lobe[1])
        along, turned = s[inside], heading[inside]
        rest = np.abs(turned - turned[-1 if from_end else 0])
        over = along[rest >= turn]
        if len(over):
            found.append(float(over[-1] if from_end else over[0]))
    return tuple(found)


def _diamond(at: Point, reach: float) -> Stroke:
    x, y = at
    corners = [[x, y - reach], [x + reach, y], [x, y + reach], [x - reach, y]]
    return Stroke(pen=Pen.POINT, points=np.array(corners), closed=True)


def _ring(at: Point, radius: float) -> Stroke:
    angles = np.linspace(0, 2 * np.pi, 48, endpoint=False)
    points: Floats = np.array(at) + radius * np.column_stack([np.cos(angles), np.sin(angles)])
    return Stroke(pen=Pen.POINT, points=points, closed=True)


def _placed(bench: _Bench, places: tuple[Place, ...]) -> Drawn:
    """Collars, rivets, screws and bare contacts: a bar across for a collar's middle, a ring for the others."""
    strokes: list[Stroke] = []
    said: list[Words] = []
    for place in places:
        at, _, out = _frame_at(bench.line, place.s)
        if "collar" in place.kinds:
            strokes.append(_across(at, out, bench.width / 2 + 3, Pen.FASTENER))
        if set(place.kinds) - {"collar"}:
            strokes.append(_ring(at, 1.4))
        drawn, words = _said(bench, at, out, f"{place.words} at {length(place.s, bench.units)}", FIGURES, 60.0)
        strokes += drawn
        said += words
    return strokes, said


def _distances(bench: _Bench) -> Drawn:
    """A tick at every 50 mm or 2 in from the start; numbered where there is room beside it."""
    step = 2 * INCH if bench.units == "in" else 50.0
    strokes: list[Stroke] = []
    said: list[Words] = []
    for n in range(1, int(bench.line.length / step + 1e-9) + 1):
        at, _, out = _frame_at(bench.line, n * step)
        strokes.append(_across(at, out, bench.width / 2 + 1.0, Pen.MARK))
        drawn, words = _said(bench, at, out, length(n * step, bench.units, 0), FIGURES, 5.0)
        strokes += drawn
        said += words
    return strokes, said


def _facts(bench: _Bench, jig: Jig, turn: float) -> tuple[str, ...]:
    left, top, right, bottom = bench.line.extent
    units = bench.units
    long, step = with_unit(bench.line.length, units), "2 in" if units == "in" else "50 mm"
    over = jig.turned_over
    hand = "Both hands alike" if jig.either else "Mirror hand: turn it over" if over else "One hand only"
    size = f"{length(right - left, units)} x {with_unit(bottom - top, units)}"
    lies = f"; turned {turn:g}° to save paper" if turn else ""
    return (
        f"Bar {with_unit(bench.width, units)} wide, {long} on the centreline, {size} over it.",
        f"Heavy line: face of the former. Ticks every {step} from the start{lies}. {hand}.",
    )


def _listing(first: Scroll, jig: Jig, places: tuple[Place, ...], units: str) -> tuple[str, ...]:
    names = [shown(name, 40) for name in jig.as_it_stands]
    over = [shown(name, 40) for name in jig.turned_over]
    made = f"Makes as drawn: {', '.join(names)}." + (f" Turned over: {', '.join(over)}." if over else "")
    lines = [f"Drawn as {shown(shown_name(first.bar), 40)} stands. {made}", jig.words]
    if places:
        held = "; ".join(f"{place.told} at {length(place.s, units)}" for place in places)
        lines.append(f"Held, in {'inches' if units == 'in' else 'mm'} from the start: {held}.")
    return tuple(lines)
