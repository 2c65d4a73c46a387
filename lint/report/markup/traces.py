"""Traces as strokes: the ball at true size, the partner's curve, the gap with its arrows."""

from __future__ import annotations

import math

import numpy as np

from lint.report.markup.chart import Chart, Floats
from lint.report.markup.pen import BROAD, MEDIUM, THIN, WHITE, WIDE, YELLOW, Ink, Pen, Point
from lint.report.markup.symbols import COLOURS, arrow, cross, diamond, plus
from lint.result import Ball, Circle, Gap, Line, Region, Sign, Spot, Trace

_MOST_POINTS = 300  # of one stroke; a curve drawn with more looks the same (within 0.1 mm) and weighs more


def draw(pen: Pen, chart: Chart, trace: Trace, sign: Sign) -> str:
    """One trace in the look of its sign."""
    colour = COLOURS[sign]
    match trace:
        case Ball(x=x, y=y, diameter=diameter):
            return _ball(pen, chart.at((x, y)), chart.long(diameter / 2), colour)
        case Circle(x=x, y=y, diameter=diameter):
            return _circle(pen, chart.at((x, y)), chart.long(diameter / 2), sign)
        case Region(rings=rings):
            return _region(pen, [chart.many(np.asarray(ring, dtype=np.float64)) for ring in rings], colour)
        case Line(points=points, closed=closed):
            return _line(pen, chart.many(np.asarray(points, dtype=np.float64)), closed, sign)
        case Gap(a=a, b=b):
            return gap(pen, chart.at(a), chart.at(b), colour)
        case Spot(x=x, y=y):
            return spot(pen, chart.at((x, y)), sign)


def strokes_of(pen: Pen, chart: Chart, trace: Trace) -> Floats | None:
    """The trace's stroke as points in page units, for labels to keep clear of; None for a spot."""
    match trace:
        case Ball(x=x, y=y, diameter=diameter) | Circle(x=x, y=y, diameter=diameter):
            way = np.linspace(0.0, 2 * math.pi, 73)
            ring = np.column_stack([x + diameter / 2 * np.cos(way), y + diameter / 2 * np.sin(way)])
            return chart.many(ring)
        case Line(points=points):
            return chart.many(np.asarray(points, dtype=np.float64))
        case Gap(a=a, b=b):
            return np.asarray(_reach(pen, chart.at(a), chart.at(b)), dtype=np.float64)
    return None


def thinned(points: Floats, most: int = _MOST_POINTS) -> list[Point]:
    """At most `most` of the points, both ends kept."""
    if len(points) > most:
        points = points[np.linspace(0, len(points) - 1, most).round().astype(int)]
    return [(float(x), float(y)) for x, y in points]


def gap(pen: Pen, a: Point, b: Point, colour: str) -> str:
    """A dimension line from a to b: arrows within where there is room, else from outside."""
    far = math.dist(a, b)
    if far < 1e-12:
        return cross(pen, a, 1.2, Ink(stroke=colour, width=WIDE))
    out_a, out_b = _reach(pen, a, b)
    tails = (b, a) if out_a == a else (out_a, out_b)
    heads = arrow(pen, a, tails[0], colour) + arrow(pen, b, tails[1], colour)
    return _cased(pen, [(out_a, out_b)], Ink(stroke=colour, width=MEDIUM)) + heads


def _reach(pen: Pen, a: Point, b: Point) -> tuple[Point, Point]:
    """The ends of a gap's line: a and b, or beyond them where the arrows stand outside."""
    far = math.dist(a, b)
    if far > 8 * pen.unit or far < 1e-12:
        return a, b
    ux, uy = (b[0] - a[0]) / far * 5.5 * pen.unit, (b[1] - a[1]) / far * 5.5 * pen.unit
    return (a[0] - ux, a[1] - uy), (b[0] + ux, b[1] + uy)


def _cased(pen: Pen, strokes: list[tuple[Point, Point]], ink: Ink) -> str:
    """Strokes with a white casing, so that they show on dark metal too."""
    return pen.lines(strokes, Ink(stroke=WHITE, width=ink.width + 0.5)) + pen.lines(strokes, ink)


def _ball(pen: Pen, at: Point, radius: float, colour: str) -> str:
    casing = pen.circle(at, radius, Ink(stroke=WHITE, width=BROAD + 0.5))
    disc = pen.circle(at, radius, Ink(stroke=colour, width=BROAD, fill=colour, opacity=0.12))
    centre = plus(pen, at, 2.5, Ink(stroke=colour, width=MEDIUM))
    across = math.sqrt(0.5) * radius
    a, b = (at[0] - across, at[1] + across), (at[0] + across, at[1] - across)
    size = pen.line(a, b, Ink(stroke=colour, width=THIN)) + arrow(pen, a, b, colour) + arrow(pen, b, a, colour)
    return casing + disc + centre + (size if radius > 6 * pen.unit else "")


def _circle(pen: Pen, at: Point, radius: float, sign: Sign) -> str:
    faint = sign in (Sign.FACT, Sign.STANDS)
    ink = Ink(stroke=COLOURS[sign], width=THIN if faint else WIDE, dash=() if faint else (3, 1))
    return pen.circle(at, radius, ink) + plus(pen, at, 1.2, Ink(stroke=COLOURS[sign], width=THIN))


def _region(pen: Pen, rings: list[Floats], colour: str) -> str:
    ink = Ink(stroke=colour, width=MEDIUM, fill=colour, opacity=0.35, dash=(1.2, 0.8))
    d = " ".join(pen.trail(thinned(ring), closed=True) for ring in rings if len(ring) > 2)
    return f'<path d="{d}" style="fill-rule:evenodd;{pen.style(ink)}"/>' if d else ""


def _line(pen: Pen, points: Floats, closed: bool, sign: Sign) -> str:
    trail = thinned(points)
    if sign is Sign.STANDS:
        return pen.lines([trail], Ink(stroke=YELLOW, width=BROAD), closed)
    # ISO 128 line 05.1, long dash and two dots: what lies on another part
    dash = {Sign.MEND: (6.0, 1.0, 0.7, 1.0, 0.7, 1.0), Sign.LOOK: (3.0, 1.2)}.get(sign, ())
    ink = Ink(stroke=COLOURS[sign], width=WIDE if sign is not Sign.FACT else THIN, dash=dash)
    casing = pen.lines([trail], Ink(stroke=WHITE, width=ink.width + 0.6), closed) if sign is not Sign.FACT else ""
    return casing + pen.lines([trail], ink, closed)


def spot(pen: Pen, at: Point, sign: Sign) -> str:
    """A place by itself, in the look of its sign: a ring with a cross, a diamond, a dot."""
    colour = COLOURS[sign]
    if sign is Sign.MEND:
        ring = pen.circle(at, 2.0 * pen.unit, Ink(stroke=WHITE, width=BROAD + 0.5))
        ring += pen.circle(at, 2.0 * pen.unit, Ink(stroke=colour, width=WIDE))
        return ring + cross(pen, at, 1.0, Ink(stroke=colour, width=WIDE))
    if sign is Sign.LOOK:
        return diamond(pen, at, 2.2, Ink(stroke=WHITE, width=WIDE + 0.5)) + diamond(
            pen, at, 2.2, Ink(stroke=colour, width=WIDE, dash=(1.0, 0.5))
        )
    return pen.circle(at, 0.6 * pen.unit, Ink(fill=colour, stroke=WHITE, width=THIN))
