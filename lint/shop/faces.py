"""The faces of a bar: its centreline moved sideways by half its width, and the face that the former follows."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np

from lint.geometry.area import area
from lint.geometry.bending import turning
from lint.geometry.curve import Curve, curve
from lint.panel.parts import Bar, DrawnAs
from lint.shop.pattern import Floats, Pen, Stroke

STEP = 2.0  # mm: where the line's own points are farther apart, others stand between them


def turned(bar: Bar, degrees: float) -> Bar:
    """The bar turned clockwise about the panel's zero."""
    if not degrees:
        return bar
    spin = turning_matrix(degrees)
    metal = None if bar.metal is None else area([np.array(ring) @ spin for ring in bar.metal.rings])
    return replace(bar, line=curve(bar.line.points @ spin, bar.line.closed), metal=metal)


def turning_matrix(degrees: float) -> Floats:
    """What points (n, 2) are multiplied by, from the right, to turn clockwise on the page (y down)."""
    cos, sin = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    matrix: Floats = np.array([[cos, sin], [-sin, cos]])
    return matrix


def stepped(line: Curve) -> Floats:
    """Distances along a line at which it is drawn, mm: its own points, which follow it to the accuracy it was read
    with (0.005 mm), and others between those that are over 2 mm apart."""
    gaps = np.diff(line.stations)
    pieces = np.maximum(1, np.ceil(gaps / STEP)).astype(int)
    which = np.repeat(np.arange(len(gaps)), pieces)
    first = np.cumsum(pieces) - pieces
    share = (np.arange(len(which)) - first[which]) / pieces[which]
    s: Floats = np.append(line.stations[which] + gaps[which] * share, line.length)
    return s


def moved(line: Curve, s: Floats, by: Floats | float) -> Floats:
    """The line at distances `s`, moved by `by` mm to its right as it runs (y down). (n, 2), mm."""
    way = line.tangent(s)
    across = np.column_stack([-way[:, 1], way[:, 0]])
    reach: Floats = line.at(s) + across * (np.asarray(by)[:, None] if np.ndim(by) else by)
    return reach


def lobes_of(line: Curve) -> tuple[tuple[float, float, float], ...]:
    """(start, end, +1 or -1) for each stretch that turns one way, the whole line covered, mm. +1: clockwise on the
    page, the inside to the right of the line as it runs."""
    lobes = turning(line).lobes
    if not lobes:
        return ((0.0, line.length, 1.0),)
    cuts = [0.0, *((a[1] + b[0]) / 2 for a, b in pairwise(lobes)), line.length]
    return tuple((cuts[i], cuts[i + 1], 1.0 if turned >= 0 else -1.0) for i, (_, _, turned) in enumerate(lobes))


def former_strokes(bar: Bar, width: float) -> list[Stroke]:
    """The inside face, centreline less half the bar, one stroke for each stretch that turns one way."""
    strokes = []
    for start, end, side in lobes_of(bar.line):
        s = stepped(bar.line)
        inside = s[(s > start) & (s < end)]
        along = np.concatenate([[start], inside, [end]])
        strokes.append(Stroke(pen=Pen.FORMER, points=moved(bar.line, along, side * width / 2)))
    return strokes


def face_strokes(bar: Bar, width: float) -> list[Stroke]:
    """Both faces and the ends; the drawn silhouette where the bar was drawn as an outline."""
    if bar.drawn_as is DrawnAs.OUTLINE and bar.metal is not None:
        return [Stroke(pen=Pen.FACE, points=np.array(ring), closed=True) for ring in bar.metal.rings]
    s = stepped(bar.line)
    right, left = moved(bar.line, s, width / 2), moved(bar.line, s, -width / 2)
    if bar.line.closed:
        return [Stroke(pen=Pen.FACE, points=side, closed=True) for side in (right, left)]
    return [Stroke(pen=Pen.FACE, points=np.concatenate([right, left[::-1]]), closed=True)]


def centre_stroke(bar: Bar) -> Stroke:
    """The centreline."""
    return Stroke(pen=Pen.CENTRE, points=bar.line.at(stepped(bar.line)), closed=bar.line.closed)
