"""Facts straight from the panel: what was read and measured, in blue, whether or not a rule asks for it.

Symbols always stand at their place, and so do their words where there is room. Without it a corner's and a sample's go
to the sheet by a letter; ends, openings and the other scrolls are told there in any case.
"""

from __future__ import annotations

import math

from lint.lengths import INCH
from lint.panel.panel import Panel
from lint.panel.parts import FRAME, Contact, Corner, End, Fastener, Opening, Scroll
from lint.report.markup.pen import BLUE, DARK, MEDIUM, THIN, WHITE, YELLOW, Ink, Point
from lint.report.markup.sketch import Sketch
from lint.report.markup.symbols import plus
from lint.shown import shown

_MOST = 120  # of one kind that are drawn, the largest or first
_READABLE = 2.2  # sheet mm: how high the drawing's own words must stand, descenders included
_CLEAR = 6.0  # sheet mm from a scroll's label to the nearest fastener
_MOST_LABELS = 40  # of one kind that get words
_KINDS = {"C": "C scroll", "S": "S scroll", "other": "scroll"}


def draw_facts(sketch: Sketch, panel: Panel, balls: tuple[Point, ...]) -> None:
    """All facts of the panel. `balls` are the places (mm) where a finding draws a circle of its own."""
    for corner in panel.frame.corners if panel.frame else ():
        _corner(sketch, panel, corner)
    widest = sorted(panel.openings, key=lambda o: (-round(o.diameter, 2), round(o.at[1]), round(o.at[0])))[:_MOST]
    for number, opening in enumerate(widest):
        if not any(math.dist(opening.at, ball) < opening.diameter / 4 for ball in balls):
            _opening(sketch, opening, panel.scale.known, number < _MOST_LABELS)
    for scroll in (*panel.scrolls, *panel.samples)[:_MOST]:
        _ends(sketch, panel, scroll)
    for fastener in panel.fasteners[:_MOST]:
        _fastener(sketch, panel, fastener)
    for contact in panel.contacts[:_MOST]:
        _contact(sketch, panel, contact)
    for sample in panel.samples[:_MOST_LABELS]:
        _sample(sketch, panel, sample)
    for scroll in panel.scrolls[:_MOST_LABELS]:
        _scroll(sketch, panel, scroll)


def figure(mm: float, units: str) -> str:
    """A length as it stands on the drawing: bare millimetres (ISO 129-1), or inches with their sign."""
    return f"{mm:.1f}" if units == "mm" else f'{mm / INCH:.2f}"'


def named(panel: Panel, part: str) -> str:
    """A part's name for people: the frame as such, a nameless object as what it is."""
    frame = panel.frame.members if panel.frame else ()
    if part == FRAME or any(member.id == part for member in frame):
        return "the frame"
    for number, scroll in enumerate(panel.scrolls, 1):
        if scroll.bar.id == part:
            return shown(scroll.bar.origin.id or f"scroll {number}", 30)
    for number, bar in enumerate(panel.bars, 1):
        if bar.id == part:
            return shown(bar.origin.id or f"bar {number}", 30)
    return shown(part.partition("@")[0], 30)


def _corner(sketch: Sketch, panel: Panel, corner: Corner) -> None:
    pen, at = sketch.pen, sketch.chart.at(corner.at)
    made = {"forged": "forged", "joined": corner.joint.kind if corner.joint else "joined", "open": "open"}
    words = f"{made.get(corner.made, corner.made)}, {corner.angle:.1f}°"
    radii = []
    if panel.scale.known and corner.inside_radius is not None:
        radii.append(f"inside R {figure(corner.inside_radius, sketch.units)}")
    if panel.scale.known and corner.outside_radius is not None and corner.outside_radius > 0.05:
        radii.append(f"outside R {figure(corner.outside_radius, sketch.units)}")
    size = 1.1
    mark = pen.box(
        at[0] - size * pen.unit, at[1] - size * pen.unit, 2 * size * pen.unit, 2 * size * pen.unit,
        Ink(stroke=BLUE, width=MEDIUM, fill=BLUE if corner.made == "forged" else WHITE),
    )  # fmt: skip
    if corner.made == "joined":
        mark += plus(pen, at, size, Ink(stroke=BLUE, width=MEDIUM))
    title = f"Corner: {', '.join([words, *radii])}"
    sketch.add("facts", title, mark)
    sketch.fact(title, title, at, (words, ", ".join(radii)) if radii else (words,))


def _ends(sketch: Sketch, panel: Panel, scroll: Scroll) -> None:
    for end in scroll.ends:
        at = sketch.chart.at(end.at)
        said = end.name or end.written
        title = f"Scroll end: {shown(said)}" if said else "Scroll end without a name"
        dot = sketch.pen.circle(at, 0.7 * sketch.pen.unit, Ink(fill=BLUE, stroke=WHITE, width=THIN))
        sketch.add("facts", title, dot)
        sketch.marked(at)
        if end.name and not _can_be_read(sketch, panel, end):
            sketch.label(title, (shown(end.name, 24),), at)


def _can_be_read(sketch: Sketch, panel: Panel, end: End) -> bool:
    """Whether the drawing itself says this end's name, in the same words and large enough."""
    if end.written.strip().casefold() != (end.name or "").casefold():
        return False
    near = 12.0 * sketch.pen.unit * sketch.chart.scale
    x, y = end.at
    for left, top, right, bottom in panel.written:
        if left - near < x < right + near and top - near < y < bottom + near:
            off = math.hypot(max(left - x, 0.0, x - right), max(top - y, 0.0, y - bottom))
            if off < near and sketch.chart.long(bottom - top) >= _READABLE * sketch.pen.unit:
                return True
    return False


def _opening(sketch: Sketch, opening: Opening, known: bool, label: bool) -> None:
    pen, at = sketch.pen, sketch.chart.at(opening.at)
    radius = sketch.chart.long(opening.diameter / 2)
    stands = sketch.checked(at)
    words = f"Ø{figure(opening.diameter, sketch.units)}" if known else ""
    title = "; ".join((f"Largest circle of this opening{f': {words}' if words else ''}", *stands))
    body = pen.circle(at, radius, Ink(stroke=BLUE, width=THIN, dash=(4.0, 1.0, 0.6, 1.0)))
    middle, ticked = None, bool(stands)
    if words and label:
        wide, high = sketch.size((words,), ticked)
        spare = radius - math.hypot(wide, high) / 2
        spots = [(at[0] + spare * dx, at[1] + spare * dy) for dy in (0.0, 0.5, -0.5) for dx in (0.0, 0.5, -0.5)]
        middle = sketch.room.try_at(spots, (wide, high), clear=False) if spare > 0 else None
    if middle is None or math.dist(middle, at) > 0:
        body += plus(pen, at, 1.0, Ink(stroke=BLUE, width=THIN))
    if middle is not None:
        body += sketch.written((words,), middle, BLUE, ticked=ticked)
    sketch.add("facts", title, body)


def _fastener(sketch: Sketch, panel: Panel, fastener: Fastener) -> None:
    """A ring (rivet, screw, weld) or a square (collar) with the number of bars it holds; yellow where it stands."""
    pen, at = sketch.pen, sketch.chart.at(fastener.at)
    holds = list(dict.fromkeys(named(panel, part) for part in fastener.holds))
    stands = sketch.checked(at)
    title = "; ".join((f"{fastener.kind.capitalize()} holds {' and '.join(holds) or 'nothing'}", *stands))
    ink = Ink(stroke=DARK, width=MEDIUM, fill=YELLOW) if stands else Ink(stroke=BLUE, width=MEDIUM, fill=WHITE)
    size = 1.5 * pen.unit
    if fastener.kind == "collar":
        mark = pen.box(at[0] - size, at[1] - size, 2 * size, 2 * size, ink)
    else:
        mark = pen.circle(at, size, ink)
    count = str(len(fastener.holds))
    figure_ink = DARK if stands else BLUE
    mark += pen.words(count, pen.shift(at, 0, 0.9), height=1.8, fill=figure_ink, bold=True, anchor="middle")
    sketch.add("facts", title, mark)


def _contact(sketch: Sketch, panel: Panel, contact: Contact) -> None:
    if contact.fasteners:
        return
    at = sketch.chart.at(contact.at)
    names = " and ".join(named(panel, part) for part in contact.bars)
    ring = sketch.pen.circle(at, 1.0 * sketch.pen.unit, Ink(stroke=BLUE, width=THIN, dash=(0.6, 0.4)))
    sketch.add("facts", f"Contact without a fastener: {names}", ring)


def _sample(sketch: Sketch, panel: Panel, sample: Scroll) -> None:
    """What a sample beside the panel is: of a scroll's jig, or of none."""
    jig = any(scroll.family == sample.family for scroll in panel.scrolls)
    what, whose = _KINDS[sample.kind], f"of jig {sample.family}" if jig else "matches no scroll of the panel"
    words = f"sample {named(panel, sample.bar.id)}: {what}, {whose}"
    at = _free_places(sketch, panel, sample)[0]
    sketch.fact(_long(sketch, panel, sample, words), words, at, (f"sample: {what}", whose))


def _scroll(sketch: Sketch, panel: Panel, scroll: Scroll) -> None:
    """Kind and family on the scroll, at the first of some places along it where there is room."""
    jig = f"jig {scroll.family}" if scroll.family else ""
    words = ", ".join(filter(None, (_KINDS[scroll.kind], jig)))
    title = _long(sketch, panel, scroll, words)
    x, y = scroll.bar.line.at(scroll.bar.line.length / 2)
    middle = sketch.chart.at((float(x), float(y)))
    places = _free_places(sketch, panel, scroll)
    for said, at in ((said, at) for said in filter(None, (words, jig)) for at in places):
        if sketch.label(title, (said,), at, reach=13, stands=middle):
            return


def _long(sketch: Sketch, panel: Panel, scroll: Scroll, words: str) -> str:
    return f"{words}, {figure(scroll.bar.line.length, sketch.units)} long" if panel.scale.known else words


def _free_places(sketch: Sketch, panel: Panel, scroll: Scroll) -> list[Point]:
    """Some places along a scroll, page units: those clear of fasteners, for a leader that ends under a collar would
    point at two bars; all of them where none is clear."""
    points = scroll.bar.line.points
    spots = [points[int(share * (len(points) - 1))] for share in (0.5, 0.4, 0.6, 0.33, 0.67, 0.25, 0.75)]
    places = [sketch.chart.at((float(x), float(y))) for x, y in spots]
    fixed = [sketch.chart.at(fastener.at) for fastener in panel.fasteners[:_MOST]]
    return [at for at in places if all(math.dist(at, o) > _CLEAR * sketch.pen.unit for o in fixed)] or places
