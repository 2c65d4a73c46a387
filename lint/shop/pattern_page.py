"""The patterns as one page to print: a cover with the legend and the maps, then every sheet. HTML, self-contained."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import count

from lint.shop.pattern import Pattern
from lint.shop.pattern_sheet import ink, sheet
from lint.shop.sheet_words import words_by_sheet
from lint.shop.table import UNITS
from lint.shop.tiling import OVERLAP, Paper, Tile, Tiled, cover_paper, paper_for, tiled
from lint.shop.wording import CAUTIONS, escaped, not_approved

STYLE = """
html, body { margin: 0; padding: 0; background: #fff }
* { font-family: "Liberation Sans", Arial, Helvetica, sans-serif; box-sizing: border-box }
.page { overflow: hidden; position: relative; break-after: page; break-inside: avoid }
.page:last-child { break-after: auto }
.sheet { display: block }
text { fill: #000 } text.on { stroke: #fff; stroke-width: .9; stroke-linejoin: round; paint-order: stroke }
.cover { padding: 12mm 12mm 8mm; font-size: 9.5pt; line-height: 1.35; color: #111 }
h1 { font-size: 17pt; margin: 0 0 1mm; line-height: 1.15 } h2 { font-size: 11pt; margin: 4mm 0 1mm }
p { margin: 0 0 1.2mm } ul { margin: 0; padding-left: 5mm } li { margin: .5mm 0 } .small { font-size: 8.5pt }
.stop { border: .7mm solid #111; padding: 1.5mm 3mm; font-weight: bold; margin: 2mm 0 }
.legend { display: grid; grid-template-columns: 1fr 1fr; gap: .8mm 6mm }
.legend span { display: flex; align-items: center; gap: 3mm }
.legend svg { width: 16mm; height: 4mm; flex: none }
.one { display: grid; grid-template-columns: 50mm 1fr; gap: 5mm; margin: 3mm 0 0; padding-top: 3mm; height: 41mm;
  overflow: hidden; border-top: .25mm solid #111 }
.one h2 { margin-top: 0 } .one p { margin: 0 0 .5mm; font-size: 8pt; line-height: 1.25 } .one svg { overflow: visible }
@media screen { html, body { background: #d8d8d8 } .page { margin: 8mm auto; background: #fff;
  box-shadow: 0 1mm 4mm #0004 } }
"""
MAP_TALL, FIRST_TALL, MARGINS = 44.0, 144.0, 20.0  # mm: a pattern on the cover, the first cover's words, its margins


def as_page(
    patterns: Sequence[Pattern],
    *,
    paper: str,
    title: str,
    path: str,
    units: str,
    failing: Sequence[str] = (),
    left_out: Sequence[str] = (),
) -> str:
    """All patterns on `paper` ("a4", "a3", "letter", "tabloid", "sheet"), a cover first. Raises Refused where they
    take too many sheets; KeyError for another paper. `failing` are rules that the drawing fails, `left_out` says what
    has no pattern. Prints at true size where the printer is told 100 %."""
    all_tiled = [tiled(pattern, paper_for(pattern, paper)) for pattern in patterns]
    cover = cover_paper(paper, units)
    told = _covers(all_tiled, cover, (title, path, units), _boxes(failing, left_out))
    covers = [_page(cover, words, " cover") for words in told]
    defs = "".join(ink(tiles.pattern, f"p{n}") for n, tiles in enumerate(all_tiled))
    store = f'<svg width="0" height="0" style="position:absolute" aria-hidden="true"><defs>{defs}</defs></svg>'
    name = f"Full-size patterns: {escaped(title) or 'no title'}"
    leaves = dict.fromkeys([cover, *(tiles.paper for tiles in all_tiled)])
    style = f"<style>{''.join(map(_leaf, leaves))}{STYLE}</style>"
    body = "\n".join([store, *covers, *_sheets(all_tiled, title)])
    head = f'<meta charset="utf-8"><title>{name}</title>{style}'
    return f'<!DOCTYPE html>\n<html lang="en"><head>{head}</head>\n<body>\n{body}\n</body></html>\n'


def _sheets(all_tiled: Sequence[Tiled], title: str) -> list[str]:
    """Every sheet that shows something, numbered through all patterns."""
    sheets, number = sum(len(tiles.printed) for tiles in all_tiled), count(1)
    pages = []
    for n, tiles in enumerate(all_tiled):
        words = words_by_sheet(tiles)
        for tile in tiles.printed:
            inside = sheet(tiles, tile, words[tile.name], f"p{n}", (title, next(number), sheets))
            pages.append(_page(tiles.paper, inside, ""))
    return pages


def _leaf(paper: Paper) -> str:
    """A kind of page for each size and way of the paper, so that upright and lying sheets print in one go."""
    name, size = _leaf_name(paper), f"{paper.wide:g}mm {paper.tall:g}mm"
    box = f".{name} {{ page: {name}; width: {paper.wide:g}mm; height: {paper.tall:g}mm }}"
    return f"@page {name} {{ size: {size}; margin: 0 }}\n{box}\n"


def _leaf_name(paper: Paper) -> str:
    return f"s{paper.wide:g}x{paper.tall:g}".replace(".", "-")


def _page(paper: Paper, inside: str, kind: str) -> str:
    return f'<div class="page {_leaf_name(paper)}{kind}">{inside}</div>'


def _covers(all_tiled: Sequence[Tiled], paper: Paper, names: tuple[str, str, str], boxes: str) -> list[str]:
    """The first page with its words and as many patterns as fit under them, then pages with the others."""
    ones = [_one(tiles, f"p{n}") for n, tiles in enumerate(all_tiled)]
    first = max(0, int((paper.tall - MARGINS - FIRST_TALL) / MAP_TALL))
    each = max(1, int((paper.tall - MARGINS) / MAP_TALL))
    rest = [ones[n : n + each] for n in range(first, len(ones), each)]
    return [_words(all_tiled, names, boxes) + "".join(ones[:first]), *("".join(some) for some in rest)]


def _boxes(failing: Sequence[str], left_out: Sequence[str]) -> str:
    """What must be seen before anything is printed."""
    stop = [not_approved(failing)] if failing else []
    true_size = (
        "Print at 100 % (“actual size”). Never “fit to page”: at 97 % a 101.6 mm opening prints as 98.6. "
        "Measure the 100 mm and the 4 in length on every sheet before you use it."
    )
    return "".join(f'<p class="stop">{escaped(said, 400)}</p>' for said in (*stop, true_size, *left_out))


def _words(all_tiled: Sequence[Tiled], names: tuple[str, str, str], boxes: str) -> str:
    title, path, units = names
    sheets = sum(len(tiles.printed) for tiles in all_tiled)
    patterns = f"{len(all_tiled)} pattern{'s' if len(all_tiled) > 1 else ''}"
    paper = all_tiled[0].paper.name
    kind = "large " if paper == "sheet" else f"{paper} "
    on = f"{sheets} {kind}sheet{'s' if sheets > 1 else ''}"
    return (
        f"<h1>Full-size patterns: {escaped(title) or 'no title'}</h1>"
        f'<p class="small">{escaped(path)} · lengths in {UNITS[units]} · {patterns} on {on}</p>'
        f"{boxes}"
        f'<h2>Lines</h2><div class="legend">{_legend(units)}</div>'
        f"<h2>Putting the sheets together</h2><ul class='small'>{_steps()}</ul>"
        f'<h2>Cautions</h2><ul class="small">{"".join(f"<li>{escaped(said, 400)}</li>" for said in CAUTIONS)}</ul>'
    )


def _steps() -> str:
    steps = (
        f"Sheets share {OVERLAP:g} mm. Cut one of each pair along its dashed line, lay it on the other so that the "
        "register crosses fall on one another, and glue. Rows have letters, columns numbers.",
        "Sheets that would be empty are not printed; the map crosses them out.",
        "Check the joined pattern too: its overall size stands in the head of every sheet.",
        "Paper moves with damp. Step the ticks off on the bar with dividers or a traveller; the figures hold.",
    )
    return "".join(f"<li>{escaped(step, 400)}</li>" for step in steps)


def _legend(units: str) -> str:
    step = "2 in" if units == "in" else "50 mm"
    samples = (
        ("M0,2H16", 'stroke-width="0.7"', "face of the former (inside face)"),
        ("M0,2H16", 'stroke-width="0.35"', "faces of the bar"),
        ("M0,2H16", 'stroke-width="0.25" stroke-dasharray="6 0.75 0.13 0.75"', "centreline"),
        ("M8,0V4", 'stroke-width="0.25"', f"every {step} from the start"),
        ("M8,0.4L9.6,2L8,3.6L6.4,2Z", 'stroke-width="0.35"', "bend point: curl begins, bend changes"),
        ("M8,0V4", 'stroke-width="0.5"', "middle of a collar"),
        ("M9.4,2A1.4,1.4 0 1 0 6.6,2A1.4,1.4 0 1 0 9.4,2", 'stroke-width="0.35"', "rivet, screw, touch"),
    )
    return "".join(
        f'<span><svg viewBox="0 0 16 4"><path d="{data}" fill="none" stroke="#000" {pen}/></svg>{words}</span>'
        for data, pen, words in samples
    )


def _one(tiles: Tiled, name: str) -> str:
    """A pattern on the cover: its picture over its sheets, and what is said of it."""
    wide, tall = 50.0, 37.0
    boxes = [tile.shows for tile in tiles.tiles]
    left, top = min(box[0] for box in boxes), min(box[1] for box in boxes)
    right, bottom = max(box[2] for box in boxes), max(box[3] for box in boxes)
    scale = min(wide / (right - left), tall / (bottom - top))
    size = f'width="{(right - left) * scale:.2f}mm" height="{(bottom - top) * scale:.2f}mm"'
    view = f'viewBox="{left:.1f} {top:.1f} {right - left:.1f} {bottom - top:.1f}"'
    grid = "".join(_sheet_on_map(tile, scale) for tile in tiles.tiles)
    said = (*tiles.pattern.facts, *tiles.pattern.listing)
    words = "".join(f"<p>{escaped(one, 330)}</p>" for one in said)
    picture = f'<svg {size} {view}><g stroke-width="2"><use href="#{name}"/></g>{grid}</svg>'
    return f'<div class="one">{picture}<div><h2>{escaped(tiles.pattern.name)}</h2>{words}</div></div>'


def _sheet_on_map(tile: Tile, scale: float) -> str:
    left, top, right, bottom = tile.shows
    box = f'x="{left:.1f}" y="{top:.1f}" width="{right - left:.1f}" height="{bottom - top:.1f}"'
    place = f'x="{left + 3.5 / scale:.1f}" y="{top + 4 / scale:.1f}" font-size="{2.8 / scale:.1f}"'
    empty = (
        f'<path d="M{left:.1f},{top:.1f}L{right:.1f},{bottom:.1f}" stroke="#000" stroke-width="{0.18 / scale:.2f}"/>'
    )
    return (
        f'<rect {box} fill="none" stroke="#000" stroke-width="{0.18 / scale:.2f}"/>{empty if tile.blank else ""}'
        f'<text class="on" {place} text-anchor="middle">{tile.name}</text>'
    )
