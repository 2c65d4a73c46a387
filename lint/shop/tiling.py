"""A pattern over sheets of paper: which sheet shows what, and where neighbours overlap. mm."""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

from lint.errors import Refused
from lint.lengths import INCH
from lint.shop.pattern import Extent, Floats, Pattern, dense
from lint.values import dataclass

SIDE, HEAD, FOOT = 9.0, 20.0, 27.0  # mm: margins; most printers leave 4 to 6 mm bare
OVERLAP = 12.0  # mm that neighbours share, to glue
PAD = 5.0  # mm of white round a pattern
MOST = 300  # sheets for one drawing

# ISO 216; ASME Y14.1 (A and B are letter and tabloid)
PAPERS: Mapping[str, tuple[float, float]] = MappingProxyType(
    {"a4": (210.0, 297.0), "a3": (297.0, 420.0), "letter": (8.5 * INCH, 11 * INCH), "tabloid": (11 * INCH, 17 * INCH)}
)
LEAST_SHEET = (230.0, 160.0)  # mm: the check lengths and the warning need as much


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A sheet of paper as it goes through the printer, mm; `name` as asked for."""

    name: str
    wide: float
    tall: float

    @property
    def window(self) -> tuple[float, float]:
        """Width and height of what a sheet shows of the pattern, mm."""
        return self.wide - 2 * SIDE, self.tall - HEAD - FOOT


@dataclass(frozen=True, slots=True, kw_only=True)
class Tile:
    """One sheet of a pattern: row and column from 0, and what it shows (pattern mm). `blank` sheets show nothing
    and are not printed. `neighbours` says on which sides (left, top, right, bottom) a sheet joins."""

    row: int
    column: int
    shows: Extent
    blank: bool
    neighbours: tuple[bool, bool, bool, bool]

    @property
    def name(self) -> str:
        """Row letter and column number: A1, B3, AA12."""
        return sheet_name(self.row, self.column)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tiled:
    """A pattern and its sheets, row by row."""

    pattern: Pattern
    paper: Paper
    rows: int
    columns: int
    tiles: tuple[Tile, ...]

    @property
    def printed(self) -> tuple[Tile, ...]:
        """The sheets that show something."""
        return tuple(tile for tile in self.tiles if not tile.blank)


def sheet_name(row: int, column: int) -> str:
    """Row letter and column number, both counted from 0: A1, B3, AA12."""
    return f"{_letters(row)}{column + 1}"


def _letters(row: int) -> str:
    return (_letters(row // 26 - 1) if row >= 26 else "") + chr(ord("A") + row % 26)


def paper_for(pattern: Pattern, name: str) -> Paper:
    """The paper `name` ("a4", "a3", "letter", "tabloid"), upright or lying, whichever takes fewer sheets; "sheet"
    is one as large as the pattern. KeyError for another name."""
    if name == "sheet":
        wide, tall = _span(pattern)
        wide, tall = max(LEAST_SHEET[0], wide + 2 * SIDE), max(LEAST_SHEET[1], tall + HEAD + FOOT)
        return Paper(name=name, wide=float(math.ceil(wide)), tall=float(math.ceil(tall)))
    return min(_both_ways(name), key=lambda paper: math.prod(_counts(_span(pattern), paper)))


def _both_ways(name: str) -> tuple[Paper, Paper]:
    short, long = PAPERS[name]
    return Paper(name=name, wide=short, tall=long), Paper(name=name, wide=long, tall=short)


def fewest_sheets(size: tuple[float, float], name: str) -> int:
    """How many sheets of `name` a pattern of `size` mm takes, upright or lying. KeyError for another name."""
    span = (size[0] + 2 * PAD, size[1] + 2 * PAD)
    return min(math.prod(_counts(span, paper)) for paper in _both_ways(name))


def room_on(extent: Extent, width: float, name: str) -> Extent:
    """Where words may stand beside lines of this extent, `width` mm of bar over it, and take no more sheets of `name`;
    for a plotter's sheet 40 mm all round."""
    left, top, right, bottom = extent
    span = (right - left + width + 2 * PAD, bottom - top + width + 2 * PAD)
    room = (span[0] + 80.0, span[1] + 80.0)
    if name in PAPERS:
        paper = min(_both_ways(name), key=lambda one: math.prod(_counts(span, one)))
        counts = _counts(span, paper)
        wide, tall = paper.window
        room = (counts[0] * (wide - OVERLAP) + OVERLAP, counts[1] * (tall - OVERLAP) + OVERLAP)
    across, down = room[0] / 2 - PAD, room[1] / 2 - PAD
    x, y = (left + right) / 2, (top + bottom) / 2
    return x - across, y - down, x + across, y + down


def cover_paper(name: str, units: str) -> Paper:
    """The cover's paper: the same upright; for a plotter's sheet a plain one."""
    own = name if name in PAPERS else "letter" if units == "in" else "a4"
    return Paper(name=own, wide=PAPERS[own][0], tall=PAPERS[own][1])


def _span(pattern: Pattern) -> tuple[float, float]:
    left, top, right, bottom = pattern.extent
    return right - left + 2 * PAD, bottom - top + 2 * PAD


def _counts(span: tuple[float, float], paper: Paper) -> tuple[int, int]:
    """Columns and rows."""
    pairs = zip(span, paper.window, strict=True)
    across, down = (max(1, math.ceil((side - OVERLAP) / (room - OVERLAP) - 1e-9)) for side, room in pairs)
    return across, down


def tiled(pattern: Pattern, paper: Paper) -> Tiled:
    """The pattern over sheets, in the middle of them. Raises Refused where it takes more than 300."""
    columns, rows = _counts(_span(pattern), paper)
    if columns * rows > MOST:
        raise Refused(
            f'"{pattern.name}" takes {columns * rows} sheets of {paper.name} (at most {MOST}): '
            "choose a larger --paper, or --paper sheet for a plotter."
        )
    left, top, right, bottom = pattern.extent
    wide, tall = paper.window
    step = (wide - OVERLAP, tall - OVERLAP)
    start = ((left + right - columns * step[0] - OVERLAP) / 2, (top + bottom - rows * step[1] - OVERLAP) / 2)
    ink = _ink(pattern)
    tiles = tuple(
        _tile(row, column, (start[0] + column * step[0], start[1] + row * step[1], wide, tall), (rows, columns), ink)
        for row in range(rows)
        for column in range(columns)
    )
    return Tiled(pattern=pattern, paper=paper, rows=rows, columns=columns, tiles=tiles)


def _tile(row: int, column: int, at: tuple[float, float, float, float], counts: tuple[int, int], ink: Floats) -> Tile:
    x, y, wide, tall = at
    seen = (ink[:, 0] >= x) & (ink[:, 0] <= x + wide) & (ink[:, 1] >= y) & (ink[:, 1] <= y + tall)
    return Tile(
        row=row,
        column=column,
        shows=(x, y, x + wide, y + tall),
        blank=not bool(seen.any()),
        neighbours=(column > 0, row > 0, column < counts[1] - 1, row < counts[0] - 1),
    )


def _ink(pattern: Pattern) -> Floats:
    """Points on every line, no farther apart than 2 mm, and the middle of every word."""
    rows = [dense(stroke.points, stroke.closed) for stroke in pattern.strokes]
    return np.concatenate([*rows, np.array([words.at for words in pattern.words]).reshape(-1, 2)])
