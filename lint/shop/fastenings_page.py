"""Collars, rivets and screws on the printed stock list. HTML strings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from lint.shop.entries import StockList
from lint.shop.fastening_rows import COLLARS, RIVETS, SCREWS, Row, collar_rows, rivet_rows, screw_rows
from lint.shop.page_style import table
from lint.shop.wording import escaped


def fastenings(stock: StockList) -> list[str]:
    """A heading and a table for each kind of fastener that there is."""
    kinds = (
        ("Collars", "Stock = P + 2 π K t: P taut round the bars, t the thickness of the strip.", COLLARS, collar_rows),
        (
            "Rivets",
            "One head made beforehand, one to form. Hole 0.5 mm over the shank: common practice.",
            RIVETS,
            rivet_rows,
        ),
        ("Hidden screws", "Clearance through the first bar, thread in the last.", SCREWS, screw_rows),
    )
    found = [(title, said, head, rows(stock)) for title, said, head, rows in kinds]
    return [_section(title, said, head, rows) for title, said, head, rows in found if rows]


def _section(title: str, said: str, head: Sequence[str], rows: Iterable[Row]) -> str:
    names = (f"<{head[0]}", *head[1:])
    return f'<h2>{title}</h2><p class="under">{said}</p>{table(names, (_row(row) for row in rows))}'


def _row(row: Row) -> str:
    under = "".join(f'<span class="small">{escaped(note, 2000)}</span>' for note in row.notes)
    figures = "".join(f'<td class="figure">{escaped(cell)}</td>' for cell in row.cells[:-1])
    name = f'<td class="name"><b>{escaped(row.name)}</b>{under}</td>'
    return f'<tr>{name}{figures}<td class="cut">{escaped(row.cells[-1])}</td></tr>'
