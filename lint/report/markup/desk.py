"""The mark sheet's own measure: blocks of a fixed width in sheet mm, flowed into columns."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from lint.report.markup.lettering import fit
from lint.report.markup.pen import BLACK, SMALL, Ink, Pen, Point

COLUMN = 136.0  # width of a column: some 70 letters of 2.5 mm; two go on A4 across
GAP = 5.0  # between columns, and around the sheet
LINE = 4.0  # base line to base line of 2.5 mm lettering


@dataclass(frozen=True, slots=True)
class Desk:
    """A pen whose measure is sheet mm from `zero` (page units)."""

    pen: Pen
    zero: Point

    def at(self, x: float, y: float) -> Point:
        """A place of the sheet in page units."""
        return self.zero[0] + x * self.pen.unit, self.zero[1] + y * self.pen.unit

    def words(
        self,
        text: str,
        x: float,
        y: float,
        *,
        room: float,
        height: float = SMALL,
        fill: str = BLACK,
        bold: bool = False,
    ) -> str:
        """A line of words from x, base line at y, cut to `room`."""
        return self.pen.words(fit(text, room, height, bold), self.at(x, y), height=height, fill=fill, bold=bold)

    def lines(self, lines: Sequence[str], x: float, y: float, *, fill: str = BLACK, bold: bool = False) -> str:
        """Lines of 2.5 mm words that were wrapped to fit, the first base line at y."""
        return "".join(
            self.pen.words(line, self.at(x, y + n * LINE), fill=fill, bold=bold) for n, line in enumerate(lines)
        )

    def box(self, x: float, y: float, width: float, height: float, ink: Ink) -> str:
        """A rectangle."""
        return self.pen.box(*self.at(x, y), width * self.pen.unit, height * self.pen.unit, ink)

    def rule(self, x: float, y: float, length: float, ink: Ink) -> str:
        """A level line."""
        return self.pen.line(self.at(x, y), self.at(x + length, y), ink)


@dataclass(frozen=True, slots=True)
class Block:
    """A piece of the sheet: its height, how it is drawn at a place of the desk, and the words a viewer shows on it.
    `stays` keeps it in one column with the block before; `last` sends it to the foot of the last column."""

    height: float
    title: str
    draw: Callable[[Desk, float, float], str]
    stays: bool = False
    last: bool = False


@dataclass(frozen=True, slots=True)
class Set:
    """Blocks with their places: column number and top, sheet mm; and the height that the columns need."""

    places: tuple[tuple[Block, int, float], ...]
    height: float


def flow(blocks: Sequence[Block], columns: int, height: float) -> Set | None:
    """The blocks set into `columns` of `height` sheet mm; None where they do not fit."""
    column, top, places = 0, 0.0, []
    for chain in _chains(blocks):
        need = sum(block.height for block in chain)
        if top and top + need > height:
            column, top = column + 1, 0.0
        if column >= columns or need > height:
            return None
        if chain[0].last:
            column, top = columns - 1, height - need
        for block in chain:
            places.append((block, column, top))
            top += block.height
    return Set(tuple(places), height)


def _chains(blocks: Sequence[Block]) -> list[list[Block]]:
    """Blocks that stay together; those for the foot come last, in one."""
    chains: list[list[Block]] = []
    for block in (block for block in blocks if not block.last):
        if block.stays and chains:
            chains[-1].append(block)
        else:
            chains.append([block])
    foot = [block for block in blocks if block.last]
    return [*chains, foot] if foot else chains


def lowest(blocks: Sequence[Block], columns: int, least: float = 0.0) -> Set:
    """The blocks set into columns of the smallest height that takes them, at least `least`."""
    total = sum(block.height for block in blocks)
    height = max(least, total / columns)
    while True:
        found = flow(blocks, columns, height)
        if found is not None:
            return found
        height += 4.0
