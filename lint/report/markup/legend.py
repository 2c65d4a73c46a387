"""What the signs mean: each by its shape first, its colour second."""

from __future__ import annotations

from collections.abc import Callable

from lint.report.markup import symbols
from lint.report.markup.desk import COLUMN, LINE, Block, Desk
from lint.report.markup.pen import BLUE, BROAD, DARK, MEDIUM, RED, THIN, WIDE, YELLOW, Ink, Pen, Point
from lint.result import Sign

_WORDS = 8.0  # where the words begin beside a sign, sheet mm
_STEP = 5.0


def legend() -> list[Block]:
    """One block: two columns of signs with their words."""
    signs: tuple[tuple[Callable[[Pen, Point], str], str], ...] = (
        (lambda pen, at: symbols.balloon(pen, at, 1, Sign.MEND, 2.0), "must change"),
        (lambda pen, at: symbols.balloon(pen, at, 2, Sign.LOOK, 1.7), "a person must look"),
        (symbols.tick, "checked, and stands"),
        (symbols.dash, "not judged"),
        (_ball, "the ball, where it passes"),
        (_reach, "where its centre can be"),
        (_circle, "largest circle of an opening"),
        (_partner, "the partner's curve"),
        (_fasteners, "fastener: bars it holds"),
        (_corners, "corner: forged, joined"),
    )
    rows = (len(signs) + 1) // 2

    def draw(desk: Desk, x: float, y: float) -> str:
        body = desk.words("Signs", x, y + 4.2, room=COLUMN, bold=True)
        for number, (sign, words) in enumerate(signs):
            left, middle = x + number % 2 * COLUMN / 2, y + 8.0 + number // 2 * _STEP
            body += sign(desk.pen, desk.at(left + 3.0, middle))
            body += desk.words(words, left + _WORDS, middle + 1.2, room=COLUMN / 2 - _WORDS - 1)
        return body

    return [Block(LINE + 2.0 + rows * _STEP, "What the signs mean", draw)]


def _ball(pen: Pen, at: Point) -> str:
    return pen.circle(at, 2.0 * pen.unit, Ink(stroke=RED, width=BROAD, fill=RED, opacity=0.12))


def _reach(pen: Pen, at: Point) -> str:
    corners = [pen.shift(at, *step) for step in ((-2.2, 1.5), (2.2, 1.5), (0.0, -1.7))]
    return pen.lines([corners], Ink(stroke=RED, width=MEDIUM, fill=RED, opacity=0.35, dash=(1.2, 0.8)), closed=True)


def _circle(pen: Pen, at: Point) -> str:
    return pen.circle(at, 2.0 * pen.unit, Ink(stroke=BLUE, width=THIN, dash=(2.0, 0.6, 0.4, 0.6)))


def _partner(pen: Pen, at: Point) -> str:
    dashes = Ink(stroke=RED, width=WIDE, dash=(2.4, 0.5, 0.4, 0.5, 0.4, 0.5))
    return pen.line(pen.shift(at, -3.0, 0.0), pen.shift(at, 3.0, 0.0), dashes)


def _fasteners(pen: Pen, at: Point) -> str:
    ink = Ink(stroke=DARK, width=MEDIUM, fill=YELLOW)
    left, right = pen.shift(at, -1.8, 0.0), pen.shift(at, 1.8, 0.0)
    corner, side = pen.shift(right, -1.4, -1.4), 2.8 * pen.unit
    body = pen.circle(left, 1.4 * pen.unit, ink) + pen.box(*corner, side, side, ink)
    for middle in (left, right):
        body += pen.words("2", pen.shift(middle, 0.0, 0.9), height=1.8, fill=DARK, bold=True, anchor="middle")
    return body


def _corners(pen: Pen, at: Point) -> str:
    side, ink = 2.2 * pen.unit, Ink(stroke=BLUE, width=MEDIUM)
    left, right = pen.shift(at, -2.9, -1.1), pen.shift(at, 0.7, -1.1)
    body = pen.box(*left, side, side, Ink(stroke=BLUE, width=MEDIUM, fill=BLUE)) + pen.box(*right, side, side, ink)
    return body + symbols.plus(pen, pen.shift(at, 1.8, 0.0), 1.1, ink)
