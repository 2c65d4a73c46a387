"""Collars, rivets and screws on the printed stock list. HTML strings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from lint.shop.entries import CollarLine, RivetLine, ScrewLine, StockList
from lint.shop.page_style import SENTENCE, table
from lint.shop.table import collar_notes, rivet_notes, screw_notes, sources_of
from lint.shop.wording import escaped, length, section

_COLLARS = ("<collar", "round", "P, taut round the bars", "rule", "K", "strip", "cut to")
_RIVETS = ("<rivet", "shank", "hole", "grip", "head", "head takes", "hole takes", "shank length")
_SCREWS = ("<screw", "thread", "tap drill", "clearance", "thread in", "blind hole", "at least")


def fastenings(stock: StockList) -> list[str]:
    """A heading and a table for each kind of fastener that there is."""
    units, sources = stock.units, sources_of(stock)
    parts = []
    if stock.collars:
        said = '<p class="under">Stock = P + 2 π K t, t the thickness of the strip.</p>'
        parts.append(f"<h2>Collars</h2>{said}{table(_COLLARS, (_collar(c, units, sources) for c in stock.collars))}")
    if stock.rivets:
        said = '<p class="under">One head made beforehand, one to form.</p>'
        parts.append(f"<h2>Rivets</h2>{said}{table(_RIVETS, (_rivet(r, units, sources) for r in stock.rivets))}")
    if stock.screws:
        parts.append(f"<h2>Hidden screws</h2>{table(_SCREWS, (_screw(s, units) for s in stock.screws))}")
    return parts


def _collar(line: CollarLine, units: str, sources: Sequence[str]) -> str:
    rule = f"{line.rule}: P + {line.adds}"
    cells = (line.bundle, length(line.perimeter, units), rule, f"{line.k:.4f}", section(line.strip, units))
    return _row(line.name, collar_notes(line, sources), cells, length(line.cut, units, 0))


def _rivet(line: RivetLine, units: str, sources: Sequence[str]) -> str:
    sizes = (length(line.shank, units), length(line.hole, units), length(line.grip, units))
    takes = (length(line.head_allowance, units), length(line.fill, units))
    return _row(line.name, rivet_notes(line, sources), (*sizes, line.head, *takes), length(line.cut, units, 0))


def _screw(line: ScrewLine, units: str) -> str:
    depths = (length(line.engagement, units), length(line.blind_depth, units))
    cells = (line.thread, line.tap_drill, line.clearance, *depths)
    return _row(line.name, screw_notes(line), cells, length(line.least_length, units))


def _row(name: str, notes: Iterable[str], cells: Iterable[str], cut: str) -> str:
    under = "".join(f'<span class="small">{escaped(note, SENTENCE)}</span>' for note in notes)
    figures = "".join(f'<td class="figure">{escaped(cell)}</td>' for cell in cells)
    return f'<tr><td class="name"><b>{escaped(name)}</b>{under}</td>{figures}<td class="cut">{cut}</td></tr>'
