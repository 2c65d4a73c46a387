"""The foot of the mark sheet: the caution, a check bar, a place to sign, and a title block with ISO 7200's fields."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from lint.report.markup.desk import COLUMN, LINE, Block, Desk
from lint.report.markup.lettering import wrap
from lint.report.markup.pen import BLACK, GREY, MEDIUM, SMALL, THIN, WIDE, Ink
from lint.shown import shown

_ROW = 8.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Titles:
    """What the title block says; empty for what the hand fills in."""

    title: str
    drawing: str
    date: str
    scale: str
    units: str
    sheet: str
    digest: str


def foot(titles: Titles, caution: str, per_mm: float | None) -> list[Block]:
    """The blocks at the foot of the last column. `per_mm` is page units for a millimetre of paper, None where the
    page has no size."""
    lines = wrap(caution, COLUMN - 4, SMALL)
    blocks = [Block(LINE * len(lines) + 4.5, "Caution", _caution(lines), last=True)]
    if per_mm is not None:
        blocks.append(Block(9.0, "Check bar for a print at full size", _check_bar(per_mm), last=True))
    blocks.append(Block(21.0, "To sign", _sign, last=True))
    blocks.append(Block(4 * _ROW + 2, "Title block", _titles(titles), last=True))
    return blocks


def _caution(lines: tuple[str, ...]) -> Callable[[Desk, float, float], str]:
    def draw(desk: Desk, x: float, y: float) -> str:
        body = desk.box(x, y + 1, COLUMN, LINE * len(lines) + 2.0, Ink(stroke=BLACK, width=WIDE))
        return body + desk.lines(lines, x + 2, y + 4.8)

    return draw


def _check_bar(per_mm: float) -> Callable[[Desk, float, float], str]:
    def draw(desk: Desk, x: float, y: float) -> str:
        bar, ink = 100.0 * per_mm / desk.pen.unit, Ink(stroke=BLACK, width=MEDIUM)
        body = desk.rule(x, y + 6, bar, ink)
        for at in (0.0, bar / 2, bar):
            body += desk.pen.line(desk.at(x + at, y + 4.6), desk.at(x + at, y + 7.4), ink)
        words = "this line is 100 mm long on a print at full size"
        return body + desk.words(words, x + 1, y + 3.4, room=COLUMN - 1, height=1.8, fill=GREY)

    return draw


def _sign(desk: Desk, x: float, y: float) -> str:
    body = ""
    for number, words in enumerate(("build as drawn", "mend, send again", "see me first")):
        at = x + number * COLUMN / 3
        body += desk.box(at, y + 1.5, 3.5, 3.5, Ink(stroke=BLACK, width=MEDIUM))
        body += desk.words(words, at + 5, y + 4.4, room=COLUMN / 3 - 6)
    for words, at, room in (("checked by", 0.0, 48.0), ("signature", 52.0, 52.0), ("date", 108.0, 28.0)):
        body += desk.rule(x + at, y + 16.0, room, Ink(stroke=BLACK, width=MEDIUM))
        body += desk.words(words, x + at, y + 19.0, room=room, height=1.8, fill=GREY)
    return body


def _titles(titles: Titles) -> Callable[[Desk, float, float], str]:
    cells = (
        (0, 0.0, 92.0, "title", titles.title),
        (0, 92.0, 44.0, "document type", "check print"),
        (1, 0.0, 74.0, "identification number", titles.drawing),
        (1, 74.0, 38.0, "date of issue", titles.date),
        (1, 112.0, 24.0, "sheet number", "1/1"),
        (2, 0.0, 46.0, "legal owner", ""),
        (2, 46.0, 46.0, "creator", ""),
        (2, 92.0, 44.0, "approval person", ""),
        (3, 0.0, 28.0, "scale", titles.scale),
        (3, 28.0, 18.0, "units", titles.units),
        (3, 46.0, 50.0, "requirement sheet", titles.sheet),
        (3, 96.0, 40.0, "drawing's fingerprint", titles.digest),
    )

    def draw(desk: Desk, x: float, y: float) -> str:
        body = desk.box(x, y + 1, COLUMN, 4 * _ROW, Ink(stroke=BLACK, width=WIDE))
        for row, at, room, name, value in cells:
            top = y + 1 + row * _ROW
            body += desk.box(x + at, top, room, _ROW, Ink(stroke=BLACK, width=THIN))
            body += desk.words(name, x + at + 1, top + 2.6, room=room - 2, height=1.8, fill=GREY)
            body += desk.words(shown(value), x + at + 1, top + 6.6, room=room - 2)
        return body

    return draw
