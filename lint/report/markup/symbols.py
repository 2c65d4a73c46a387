"""Symbols as paths: what a reader knows a result by where there is no colour."""

from __future__ import annotations

import math

from lint.report.markup.pen import (
    BLACK,
    BLUE,
    BROAD,
    DARK,
    GREY,
    MEDIUM,
    PURPLE,
    RED,
    SMALL,
    WHITE,
    WIDE,
    YELLOW,
    Ink,
    Pen,
    Point,
)
from lint.result import Kind, Result, Sign

COLOURS = {Sign.MEND: RED, Sign.LOOK: PURPLE, Sign.STANDS: DARK, Sign.FACT: BLUE}
BALLOON = 3.0  # radius, sheet mm
LETTER = 2.1  # radius of a fact's letter, sheet mm


def balloon(pen: Pen, at: Point, number: int, sign: Sign, radius: float = BALLOON) -> str:
    """A number in a filled circle (to mend) or an open diamond (to look at)."""
    text = SMALL * radius / BALLOON
    base = pen.shift(at, 0, text / 2)
    if sign is Sign.MEND:
        disc = pen.circle(at, radius * pen.unit, Ink(fill=RED, stroke=WHITE, width=MEDIUM))
        return disc + pen.words(str(number), base, height=text, fill=WHITE, bold=True, anchor="middle")
    reach = radius * 1.3
    shape = diamond(pen, at, reach, Ink(fill=WHITE, stroke=PURPLE, width=WIDE))
    return shape + pen.words(str(number), base, height=text * 0.9, fill=PURPLE, bold=True, anchor="middle")


def letter(pen: Pen, at: Point, turn: int) -> str:
    """A fact that the sheet tells: A, B, ... Z, AA, ... (`turn` from 0) in an open blue ring."""
    text = (chr(64 + turn // 26) if turn >= 26 else "") + chr(65 + turn % 26)
    ring = pen.circle(at, LETTER * pen.unit, Ink(fill=WHITE, stroke=BLUE, width=MEDIUM))
    return ring + pen.words(text, pen.shift(at, 0, 0.9), height=1.8, fill=BLUE, bold=True, anchor="middle")


def diamond(pen: Pen, at: Point, reach: float, ink: Ink) -> str:
    """A square on its point; `reach` from its middle to each point, sheet mm."""
    corners = [pen.shift(at, *step) for step in ((0, -reach), (reach, 0), (0, reach), (-reach, 0))]
    return pen.lines([corners], ink, closed=True)


def cross(pen: Pen, at: Point, arm: float, ink: Ink) -> str:
    """Two strokes crossing at 45 degrees; `arm` sheet mm along each axis."""
    strokes = [
        (pen.shift(at, -arm, -arm), pen.shift(at, arm, arm)),
        (pen.shift(at, -arm, arm), pen.shift(at, arm, -arm)),
    ]
    return pen.lines(strokes, ink)


def plus(pen: Pen, at: Point, arm: float, ink: Ink) -> str:
    """The cross of a centre."""
    return pen.lines(
        [(pen.shift(at, -arm, 0), pen.shift(at, arm, 0)), (pen.shift(at, 0, -arm), pen.shift(at, 0, arm))], ink
    )


def tick(pen: Pen, at: Point, size: float = 1.6) -> str:
    """Checked and stands: a dark tick on yellow."""
    disc = pen.circle(at, size * pen.unit, Ink(fill=YELLOW, stroke=DARK, width=MEDIUM))
    mark = [pen.shift(at, x * size, y * size) for x, y in ((-0.5, 0.02), (-0.12, 0.45), (0.55, -0.45))]
    return disc + pen.lines([mark], Ink(stroke=DARK, width=0.3 * size))


def stop(pen: Pen, at: Point, size: float = 1.6) -> str:
    """Must change: a white cross on a red disc."""
    disc = pen.circle(at, size * pen.unit, Ink(fill=RED, stroke=RED))
    return disc + cross(pen, at, size * 0.45, Ink(stroke=WHITE, width=0.32 * size))


def question(pen: Pen, at: Point, size: float = 1.6) -> str:
    """A person must look: a question mark in an open diamond."""
    shape = diamond(pen, at, size * 1.2, Ink(fill=WHITE, stroke=PURPLE, width=WIDE))
    turn = [math.radians(a) for a in range(-190, 91, 20)]
    hook = [pen.shift(at, 0.3 * size * math.cos(a), (-0.28 + 0.3 * math.sin(a)) * size) for a in turn]
    stem = [*hook, pen.shift(at, 0, 0.3 * size)]
    dot = pen.circle(pen.shift(at, 0, 0.58 * size), 0.12 * size * pen.unit, Ink(fill=PURPLE))
    return shape + pen.lines([stem], Ink(stroke=PURPLE, width=0.2 * size)) + dot


def dash(pen: Pen, at: Point, size: float = 1.6) -> str:
    """Not judged: a dash in an open ring."""
    ring = pen.circle(at, size * 0.95 * pen.unit, Ink(fill=WHITE, stroke=GREY, width=MEDIUM))
    return ring + pen.line(
        pen.shift(at, -0.45 * size, 0), pen.shift(at, 0.45 * size, 0), Ink(stroke=GREY, width=0.22 * size)
    )


def let_stand(pen: Pen, at: Point, size: float = 1.6) -> str:
    """A fail that the sheet waives: a cross in an open ring, struck under."""
    ring = pen.circle(at, size * 0.95 * pen.unit, Ink(fill=WHITE, stroke=BLACK, width=MEDIUM))
    under = pen.line(pen.shift(at, -size, size * 1.3), pen.shift(at, size, size * 1.3), Ink(stroke=BLACK, width=MEDIUM))
    return ring + cross(pen, at, size * 0.4, Ink(stroke=BLACK, width=0.22 * size)) + under


def of_result(pen: Pen, at: Point, result: Result) -> str:
    """The symbol of one rule's result."""
    if result.waived is not None:
        return let_stand(pen, at)
    draw = {Kind.PASS: tick, Kind.FAIL: stop, Kind.REVIEW: question, Kind.NOT_APPLICABLE: dash}
    return draw[result.kind](pen, at)


def arrow(pen: Pen, tip: Point, towards: Point, colour: str) -> str:
    """A filled arrow head whose point stands on `tip`; it points away from `towards`."""
    dx, dy = tip[0] - towards[0], tip[1] - towards[1]
    far = math.hypot(dx, dy) or 1.0
    ux, uy = dx / far * pen.unit, dy / far * pen.unit
    wings = [(tip[0] - 2.4 * ux - s * 0.55 * uy, tip[1] - 2.4 * uy + s * 0.55 * ux) for s in (1, -1)]
    return pen.lines([(tip, *wings)], Ink(fill=colour, stroke=colour, width=BROAD / 7), closed=True)
