"""The findings on the drawing: traces, balloons with their leaders, ticks; then the facts around them."""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy as np

from lint.panel.panel import Panel
from lint.report.markup.chart import bars_of
from lint.report.markup.facts import draw_facts, figure
from lint.report.markup.grid import Rect
from lint.report.markup.lettering import wrap
from lint.report.markup.numbered import Finding, Found
from lint.report.markup.pen import SMALL, Point
from lint.report.markup.room import edge, rect
from lint.report.markup.sketch import Check, Sketch
from lint.report.markup.symbols import BALLOON, COLOURS, balloon, tick
from lint.report.markup.traces import draw, spot, strokes_of
from lint.result import Ball, Circle, Gap, Sign, Spot
from lint.shown import shown

_MOST_NOTES = 9  # numbered findings up to which each has its words beside the balloon
_NOTE = 42.0  # sheet mm: the widest note
_SAME = 1.5  # sheet mm: places nearer than this share a string of balloons
_MOST_IN_STRING = 5
_LONGEST = 60  # letters of a fact that is set beside its place; a longer one is told on the sheet
_LAYER = {Sign.MEND: "mend", Sign.LOOK: "look", Sign.STANDS: "stands", Sign.FACT: "facts"}


def draw_marks(sketch: Sketch, panel: Panel, found: Found) -> None:
    """Everything that is drawn on the drawing itself."""
    take_metal(sketch, panel)
    everything = (*found.facts, *found.stands, *found.asking)
    for finding in everything:
        _take_traces(sketch, finding)
    for finding in everything:
        _traces(sketch, finding)
    numbered = [f for f in found.asking if f.number is not None]
    for string in _together(sketch, numbered):
        _balloons(sketch, string, len(numbered) <= _MOST_NOTES)
    for finding in numbered:
        _gap_figures(sketch, finding)
    sketch.checks += [Check(_at(sketch, f), _title(f), _spots(sketch, f)) for f in found.stands]
    balls = [_middles(f) for f in found.asking if f.result.rule == "pass-through"]
    draw_facts(sketch, panel, tuple(point for part in balls for point in part))
    _notes(sketch, found)
    _ticks(sketch)


def take_metal(sketch: Sketch, panel: Panel) -> None:
    """Tell the room where metal, marks and the drawing's dimensions lie."""
    for bar in bars_of(panel):
        points = sketch.chart.many(bar.line.points)
        if bar.line.closed:
            points = np.concatenate([points, points[:1]])
        sketch.room.metal.take_line(points, sketch.chart.long(bar.width or 0.0))
    for left, top, right, bottom in panel.written:
        sketch.room.words.take_box((*sketch.chart.at((left, top)), *sketch.chart.at((right, bottom))))
    for dimension in panel.dimensions:
        a, b = (sketch.chart.at(p) for p in dimension.between)
        sketch.room.metal.take_line(np.asarray([a, b]), 0.0)
    for fastener in panel.fasteners:
        sketch.room.metal.take_box(_square(sketch, sketch.chart.at(fastener.at), 1.5))
    for contact in panel.contacts:
        sketch.room.metal.take_box(_square(sketch, sketch.chart.at(contact.at), 1.0))


def _square(sketch: Sketch, at: Point, half: float) -> Rect:
    return rect(at, (2 * half * sketch.pen.unit, 2 * half * sketch.pen.unit))


def _take_traces(sketch: Sketch, finding: Finding) -> None:
    if finding.place.sign not in (Sign.MEND, Sign.LOOK):
        return
    for trace in finding.place.traces:
        if isinstance(trace, Ball):
            sketch.room.metal.take_disc(sketch.chart.at((trace.x, trace.y)), sketch.chart.long(trace.diameter / 2))
        strokes = strokes_of(sketch.pen, sketch.chart, trace)
        if strokes is not None:
            sketch.room.metal.take_line(strokes, 0.0)
    sketch.room.metal.take_box(_square(sketch, _at(sketch, finding), 2.2))


def _traces(sketch: Sketch, finding: Finding) -> None:
    quiet = finding.place.sign in (Sign.STANDS, Sign.FACT)
    if quiet and (finding.result.rule == "pass-through" or any(isinstance(t, Gap) for t in finding.place.traces)):
        return  # the openings stand among the facts, the drawing's own dimensions are drawn already
    traces = [t for t in finding.place.traces if not isinstance(t, Spot)]
    body = "".join(draw(sketch.pen, sketch.chart, trace, finding.place.sign) for trace in traces)
    # the dot of what stands is drawn with its tick, if it gets one: it would lie on a fastener's or a corner's own mark
    body += _spots(sketch, finding) if finding.place.sign is not Sign.STANDS else ""
    sketch.add(_LAYER[finding.place.sign], _title(finding), body)


def _spots(sketch: Sketch, finding: Finding) -> str:
    """The spots of a finding, drawn on the page; none on the drawing's own words, which it would hide."""
    places = [_on_page(sketch, sketch.chart.at((t.x, t.y))) for t in finding.place.traces if isinstance(t, Spot)]
    return "".join(spot(sketch.pen, at, finding.place.sign) for at in places if not sketch.room.on_words(at))


def _together(sketch: Sketch, numbered: list[Finding]) -> list[list[Finding]]:
    """Findings of one place in one string of balloons, so that one leader serves them all."""
    strings: list[list[Finding]] = []
    for finding in numbered:
        at = _at(sketch, finding)
        for string in strings:
            if len(string) < _MOST_IN_STRING and math.dist(at, _at(sketch, string[0])) < _SAME * sketch.pen.unit:
                string.append(finding)
                break
        else:
            strings.append([finding])
    return strings


def _balloons(sketch: Sketch, string: list[Finding], with_note: bool) -> None:
    pen, at = sketch.pen, _at(sketch, string[0])
    note = wrap(shown(string[0].place.note, 90), _NOTE, SMALL) if with_note and len(string) == 1 else ()
    note = note if len(note) == 1 else ()
    step = 2 * BALLOON * (1.3 if any(f.place.sign is Sign.LOOK for f in string) else 1.0) + 0.6
    words = sketch.size(note) if note else (0.0, 0.0)
    balls = step * len(string) * pen.unit
    size = (balls + words[0], max(step * pen.unit, words[1]))
    middle = sketch.room.place(at, size, reach=_NOTE, cover=0.1) if note else None
    if middle is None:
        note, size = (), (balls, step * pen.unit)  # the sheet has its words
        middle = sketch.room.place(at, size)
    if middle is None:
        return
    first = string[0]
    sign = first.place.sign
    # in the layer below the numbers, so that no leader runs over a balloon
    sketch.add(_LAYER[sign], _title(first), sketch.leader(at, edge(at, middle, size), COLOURS[sign]))
    left = middle[0] - size[0] / 2
    body = sketch.written(note, (left + balls + words[0] / 2, middle[1]), COLOURS[sign], start=True) if note else ""
    for place, finding in enumerate(string):
        centre = (left + (place + 0.5) * step * pen.unit, middle[1])
        ball = balloon(pen, centre, finding.number or 0, finding.place.sign)
        sketch.add("numbers", _title(finding), (body if place == 0 else "") + ball)


def _gap_figures(sketch: Sketch, finding: Finding) -> None:
    for trace in finding.place.traces:
        if isinstance(trace, Gap) and trace.length > 0:
            a, b = sketch.chart.at(trace.a), sketch.chart.at(trace.b)
            words = (figure(trace.length, sketch.units),)
            half = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
            middle = sketch.room.place(half, sketch.size(words), reach=13, leader=False)
            if middle is not None:
                colour = COLOURS[finding.place.sign]
                sketch.add(_LAYER[finding.place.sign], _title(finding), sketch.written(words, middle, colour))


def _notes(sketch: Sketch, found: Found) -> None:
    """Facts that the rules themselves set down."""
    for finding in found.worded()[0]:
        words = shown(finding.place.note, 300)
        reach = 13 if len(words) <= _LONGEST else 0
        sketch.fact(_title(finding), words, _at(sketch, finding), wrap(words, _NOTE, SMALL), reach=reach, tick=False)


def _ticks(sketch: Sketch) -> None:
    """A tick for what stands and has no other mark; one for all that stands at a place."""
    for check in sketch.checks:
        if check.taken:
            continue
        titles = sketch.checked(check.at, 4.0)
        side = 3.4 * sketch.pen.unit
        middle = sketch.room.place(check.at, (side, side), reach=8, leader=False) or check.at
        sketch.add("stands", "; ".join(titles), check.dot + tick(sketch.pen, middle))


def _at(sketch: Sketch, finding: Finding) -> Point:
    """The place on the page: its widest gap where it has one; the page's edge where it lies beyond."""
    gaps = [t for t in finding.place.traces if isinstance(t, Gap)]
    worst = max(gaps, key=lambda t: t.length, default=None)
    where = (finding.place.x, finding.place.y)
    if worst is not None and finding.place.sign in (Sign.MEND, Sign.LOOK):
        where = ((worst.a[0] + worst.b[0]) / 2, (worst.a[1] + worst.b[1]) / 2)
    return _on_page(sketch, sketch.chart.at(where))


def _on_page(sketch: Sketch, at: Point) -> Point:
    left, top, right, bottom = sketch.room.bounds
    inset = sketch.pen.unit  # a spot's ring stays whole
    return min(max(at[0], left + inset), right - inset), min(max(at[1], top + inset), bottom - inset)


def _title(finding: Finding) -> str:
    number = f"{finding.number}. " if finding.number else ""
    return f"{number}{finding.result.rule}: {finding.place.note}"


def _middles(finding: Finding) -> Iterable[Point]:
    return [(t.x, t.y) for t in finding.place.traces if isinstance(t, Ball | Circle)]
