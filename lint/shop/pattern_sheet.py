"""One printed sheet of a pattern: SVG in real millimetres, the size of the paper. Strings."""

from __future__ import annotations

from collections.abc import Sequence

from lint.shop.pattern import Floats, Pattern, Pen, Words
from lint.shop.tiling import FOOT, HEAD, OVERLAP, SIDE, Paper, Tile, Tiled, sheet_name
from lint.shop.wording import escaped

# Line widths of the ISO 128 series in mm; a centreline is type 04, long dash and dot.
PENS = {
    Pen.FORMER: 'stroke-width="0.7"',
    Pen.FACE: 'stroke-width="0.35"',
    Pen.CENTRE: 'stroke-width="0.25" stroke-dasharray="6 0.75 0.13 0.75"',
    Pen.FRAME: 'stroke-width="0.5"',
    Pen.MARK: 'stroke-width="0.25"',
    Pen.FASTENER: 'stroke-width="0.5"',
    Pen.POINT: 'stroke-width="0.35"',
    Pen.LEADER: 'stroke-width="0.18"',
}
WARNING = 'Print at 100 % ("actual size"), never "fit to page". Measure both lengths before use.'
CAUTION = "No check of structure or code. Cut one trial piece. Never forge galvanised stock. Shield your eyes."


def ink(pattern: Pattern, name: str) -> str:
    """The pattern's lines as a group called `name`, in pattern millimetres."""
    paths = "".join(_path(pen, pattern) for pen in Pen)
    return f'<g id="{name}" fill="none" stroke="#000" stroke-linejoin="round" stroke-linecap="butt">{paths}</g>'


def _path(pen: Pen, pattern: Pattern) -> str:
    data = "".join(_subpath(stroke.points, stroke.closed) for stroke in pattern.strokes if stroke.pen is pen)
    return f'<path d="{data}" {PENS[pen]}/>' if data else ""


def _subpath(points: Floats, closed: bool) -> str:
    told = " ".join(f"{x:.2f},{y:.2f}" for x, y in points.tolist())
    return f"M{told}{'Z' if closed else ''}"


def sheet(tiles: Tiled, tile: Tile, words: Sequence[Words], name: str, count: tuple[str, int, int]) -> str:
    """One sheet: the pattern's part in a window with `words` on it, its head with map, its foot with the check
    lengths. `count` is the panel's title, this sheet's number and how many there are."""
    paper = tiles.paper
    left, top, right, bottom = tile.shows
    window = (
        f'<svg x="{SIDE:g}" y="{HEAD:g}" width="{right - left:.3f}" height="{bottom - top:.3f}" '
        f'viewBox="{left:.3f} {top:.3f} {right - left:.3f} {bottom - top:.3f}" overflow="hidden">'
        f'<use href="#{name}"/><g text-anchor="middle">{"".join(_text(one) for one in words)}</g></svg>'
    )
    parts = (window, _edges(tile, paper, tiles), _head(tiles, tile, paper, count), _foot(paper))
    return (
        f'<svg class="sheet" xmlns="http://www.w3.org/2000/svg" width="{paper.wide:g}mm" height="{paper.tall:g}mm" '
        f'viewBox="0 0 {paper.wide:g} {paper.tall:g}" role="img" aria-label="{escaped(tiles.pattern.name)}, '
        f'sheet {tile.name}">{"".join(parts)}</svg>'
    )


def _text(words: Words) -> str:
    x, y = words.at
    weight = ' font-weight="bold"' if words.strong else ""
    # ISO 3098 counts the height of capitals, which is 1/1.4 of the font's size in the faces asked for
    size = f'font-size="{words.high * 1.4:.2f}"{weight}'
    return f'<text class="on" x="{x:.2f}" y="{y + words.high / 2:.2f}" {size}>{escaped(words.words)}</text>'


def _edges(tile: Tile, paper: Paper, tiles: Tiled) -> str:
    """Where neighbours join: a thin dashed line down the middle of the overlap, the neighbour's name, and register
    crosses that fall on one another."""
    wide, tall = paper.window
    half = OVERLAP / 2
    x0, y0, x1, y1 = SIDE + half, HEAD + half, SIDE + wide - half, HEAD + tall - half
    down, across = f"V{HEAD + tall:.3f}", f"H{SIDE + wide:.3f}"
    lines = (
        f"M{x0:.3f},{HEAD:g}{down}",
        f"M{SIDE:g},{y0:.3f}{across}",
        f"M{x1:.3f},{HEAD:g}{down}",
        f"M{SIDE:g},{y1:.3f}{across}",
    )
    joins = "".join(line for line, there in zip(lines, tile.neighbours, strict=True) if there)
    crosses = "".join(_register(x, y) for x in (x0, x1) for y in (y0, y1)) if len(tiles.tiles) > 1 else ""
    return (
        f'<path class="join" d="{joins}" fill="none" stroke="#000" stroke-width="0.18" stroke-dasharray="1 2"/>'
        f'<g class="register" fill="none" stroke="#000" stroke-width="0.18">{crosses}</g>{_joins(tile, paper)}'
    )


def _register(x: float, y: float) -> str:
    return (
        f'<path d="M{x - 4:.3f},{y:.3f}H{x + 4:.3f}M{x:.3f},{y - 4:.3f}V{y + 4:.3f}"/>'
        f'<circle cx="{x:.3f}" cy="{y:.3f}" r="2"/>'
    )


def _joins(tile: Tile, paper: Paper) -> str:
    """The name of the neighbour, small, in the overlap's outer half on each side that joins."""
    wide, tall = paper.window
    places = (
        (SIDE + 2.2, HEAD + tall / 3, -90, (0, -1)),
        (SIDE + wide / 3, HEAD + 3.4, 0, (-1, 0)),
        (SIDE + wide - 2.2, HEAD + tall / 3, 90, (0, 1)),
        (SIDE + wide / 3, HEAD + tall - 1.8, 0, (1, 0)),
    )
    told = [
        f'<text class="on" transform="translate({x:.2f},{y:.2f}) rotate({turn})">joins '
        f"{sheet_name(tile.row + down, tile.column + across)}</text>"
        for (x, y, turn, (down, across)), there in zip(places, tile.neighbours, strict=True)
        if there
    ]
    return f'<g font-size="3.5" text-anchor="middle">{"".join(told)}</g>'


def _head(tiles: Tiled, tile: Tile, paper: Paper, count: tuple[str, int, int]) -> str:
    """Pattern, panel and facts to the left; the map, the sheet's name and number to the right."""
    title, number, sheets = count
    room, right = int((paper.wide - 2 * SIDE - 34) / 1.72), paper.wide - SIDE
    facts = "".join(
        f'<text x="{SIDE:g}" y="{13.6 + 4.2 * n:.1f}" font-size="3.5">{escaped(fact, room)}</text>'
        for n, fact in enumerate(tiles.pattern.facts[:2])
    )
    name = f'<tspan font-weight="bold">{escaped(tiles.pattern.name, 40)}</tspan>'
    panel = f'<tspan dx="3" font-size="3.5">{escaped(title, max(20, room - 45))}</tspan>'
    return (
        f'<text x="{SIDE:g}" y="8.8" font-size="4.9">{name}{panel}</text>{facts}'
        f'<text x="{right:g}" y="8.8" font-size="4.9" font-weight="bold" text-anchor="end">{tile.name}</text>'
        f'<text x="{right:g}" y="13.6" font-size="3.5" text-anchor="end">{number} of {sheets}</text>'
        f"{tile_map(tiles, right - 33, 5.2, (16.0, 13.0), tile)}"
    )


def tile_map(tiles: Tiled, x: float, y: float, room: tuple[float, float], here: Tile | None = None) -> str:
    """The sheets as a small grid within `room` mm at (x, y); `here` is filled, sheets not printed are crossed out."""
    cell = min(room[0] / tiles.columns, room[1] / tiles.rows, 4.0)
    parts = []
    for tile in tiles.tiles:
        a, b = x + tile.column * cell, y + tile.row * cell
        fill = "#000" if here is not None and tile.name == here.name else "none"
        parts.append(f'<rect x="{a:.2f}" y="{b:.2f}" width="{cell:.2f}" height="{cell:.2f}" fill="{fill}"/>')
        if tile.blank:
            parts.append(f'<path d="M{a:.2f},{b:.2f}l{cell:.2f},{cell:.2f}"/>')
    return f'<g class="map" stroke="#000" stroke-width="0.18" fill="none">{"".join(parts)}</g>'


def _foot(paper: Paper) -> str:
    """A 100 mm and a 4 in length with end strokes, and the warnings."""
    y = paper.tall - FOOT + 7.5
    metric, inch = _check(SIDE, y, 100.0, "100 mm", 10.0), _check(SIDE, y + 9, 101.6, "4 in", 25.4)
    x = SIDE + 101.6 + 6
    lines = "".join(
        f'<text x="{x:.1f}" y="{y - 1.2 + 3.7 * n:.2f}" font-size="2.9"{weight}>{words}</text>'
        for n, (words, weight) in enumerate(_warnings(paper.wide - SIDE - x))
    )
    return f'<g class="check">{metric}{inch}</g>{lines}'


def _warnings(room: float) -> list[tuple[str, str]]:
    """The warning and the caution in lines that fit `room` mm: lettering of 2.9 takes about 1.5 mm a sign."""
    most = max(20, int(room / 1.5))
    bold = [(line, ' font-weight="bold"') for line in _wrapped(WARNING, most)]
    return bold + [(line, "") for line in _wrapped(CAUTION, most)]


def _wrapped(words: str, most: int) -> list[str]:
    lines = [""]
    for word in words.split():
        if lines[-1] and len(lines[-1]) + 1 + len(word) > most:
            lines.append("")
        lines[-1] = f"{lines[-1]} {word}".strip()
    return [escaped(line, 200) for line in lines]


def _check(x: float, y: float, long: float, name: str, step: float) -> str:
    ticks = "".join(f"M{x + n * step:.3f},{y:.3f}v1.4" for n in range(1, round(long / step)))
    return (
        f'<path class="length" d="M{x:.3f},{y:.3f}H{x + long:.3f}" fill="none" stroke="#000" stroke-width="0.25"/>'
        f'<path d="M{x:.3f},{y - 2.5:.3f}v5M{x + long:.3f},{y - 2.5:.3f}v5{ticks}" '
        f'fill="none" stroke="#000" stroke-width="0.25"/>'
        f'<text x="{x + long / 2:.2f}" y="{y - 1.2:.2f}" font-size="3.5" text-anchor="middle">{name}</text>'
    )
