"""The mark sheet beside the drawing (or below it), and the page grown to hold both."""

from __future__ import annotations

from dataclasses import dataclass

from lint.report.markup.desk import COLUMN, GAP, Block, Desk, Set, lowest
from lint.report.markup.page import Box
from lint.report.markup.pen import BLACK, MEDIUM, WHITE, Ink
from lint.report.markup.sketch import Sketch

# Lettering grows by the steps of ISO 3098 and ISO 128 (the root of two), so that it stays in their series.
STEPS = (1.0, 1.4, 2.0, 2.8, 4.0, 5.6, 8.0, 11.2, 16.0, 22.4, 32.0, 44.8, 64.0)
GUTTER = 12.0  # sheet mm between drawing and sheet: room for balloons
_A4 = (297.0, 210.0)
_LEAST = (
    1.6  # mm: how small letters of 2.5 may become on a page shrunk to A4 (some 6 points); larger leaves less drawing
)
_SHARE = 0.4  # of the grown page that the drawing should keep; larger makes long sheets small, smaller the drawing
_MOST_COLUMNS = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """The grown page: `page` left, top, width, height in page units; `desk` the sheet's place as left, top, width,
    height; `unit` page units for a sheet mm; `beside` False where the sheet lies below."""

    page: Box
    desk: Box
    unit: float
    beside: bool
    set: Set
    columns: int


def spread(view: Box, per_mm: float, blocks: list[Block]) -> Spread:
    """The spread with letters that can still be read on A4, the drawing still large beside its sheet.

    `view` is what the drawing's page shows, `per_mm` page units for a millimetre of paper. Of several steps of
    lettering the one is taken whose worse side (letters, or the drawing's share of the page) is the better.
    """
    best, most = None, -1.0
    for step in STEPS:
        tried = [_tried(view, step * per_mm, blocks, n, beside) for beside in (True, False) for n in _columns(beside)]
        made = min(tried, key=lambda s: _shrink(s, per_mm))
        letters = 2.5 * step / max(1.0, _shrink(made, per_mm)) / _LEAST
        share = view[2] * view[3] / (made.page[2] * made.page[3]) / _SHARE
        if min(1.0, letters, share) > most:
            best, most = made, min(1.0, letters, share)
        if letters >= 1.0:
            break
    return best or made


def draw_sheet(sketch: Sketch, made: Spread) -> None:
    """The sheet into its layer: a white ground with a border, then each block."""
    pen, box = sketch.pen, made.desk
    sketch.add("sheet", "Mark sheet", pen.box(*box, Ink(fill=WHITE, stroke=BLACK, width=MEDIUM)))
    desk = Desk(pen, (box[0] + GAP * made.unit, box[1] + GAP * made.unit))
    for block, column, top in made.set.places:
        sketch.add("sheet", block.title, block.draw(desk, column * (COLUMN + GAP), top))


def _columns(beside: bool) -> range:
    return range(1, _MOST_COLUMNS + 1) if not beside else range(1, 4)


def _tried(view: Box, unit: float, blocks: list[Block], columns: int, beside: bool) -> Spread:
    wide = (columns * (COLUMN + GAP) + GAP) * unit
    x, y, width, height = view
    if beside:
        least = max(0.0, height / unit - 2 * GAP)
        made = lowest(blocks, columns, least)
        high = (made.height + 2 * GAP) * unit
        desk = (x + width + GUTTER * unit, y, wide, high)
        page = (x, y, width + GUTTER * unit + wide, max(height, high))
        return Spread(page=page, desk=desk, unit=unit, beside=True, set=made, columns=columns)
    made = lowest(blocks, columns)
    high = (made.height + 2 * GAP) * unit
    desk = (x, y + height + GUTTER * unit, wide, high)
    page = (x, y, max(width, wide), height + GUTTER * unit + high)
    return Spread(page=page, desk=desk, unit=unit, beside=False, set=made, columns=columns)


def _shrink(made: Spread, per_mm: float) -> float:
    """How many times the page must be made smaller to go on A4, the better way round; under 1 it fits as it is."""
    width, height = made.page[2] / per_mm, made.page[3] / per_mm
    return min(max(width / _A4[0], height / _A4[1]), max(width / _A4[1], height / _A4[0]))
