"""The stock list as comma-separated values."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable

from lint.shop.entries import Allowance, StockList
from lint.shop.wording import section
from lint.shown import shown

CSV_HEAD = (
    "what", "name", "section_mm", "developed_mm", "allowances_mm", "cut_mm", "mass_kg", "detail",
)  # fmt: skip


def as_csv(stock: StockList) -> str:
    """The list as comma-separated values (RFC 4180), lengths in mm and masses in kg, one line for each part.

    A cell that a spreadsheet would take for a formula gets an apostrophe before it.
    """
    page = io.StringIO()
    writer = csv.writer(page, lineterminator="\r\n")
    writer.writerow(CSV_HEAD)
    for row in _csv_rows(stock):
        writer.writerow([_no_formula(cell) for cell in row])
    return page.getvalue()


def _csv_rows(stock: StockList) -> Iterable[tuple[str, ...]]:
    for bar in stock.bars:
        of = section(bar.section, "mm") if bar.section else ""
        added = f"{bar.net - bar.developed:.2f}"
        detail = "; ".join(_allowed(allowance) for allowance in bar.allowances)
        kg = "" if bar.mass is None else f"{bar.mass:.4f}"
        yield bar.kind, shown(bar.name), of, f"{bar.developed:.2f}", added, f"{bar.cut:.2f}", kg, detail
    for c in stock.collars:
        detail = f"round {c.bundle}; rule {c.rule}, K {c.k:.4f} ({c.source})"
        of, added = section(c.strip, "mm"), f"{c.cut - c.perimeter:.2f}"
        yield "collar", shown(c.name), of, f"{c.perimeter:.2f}", added, f"{c.cut:.2f}", f"{c.mass:.4f}", detail
    for r in stock.rivets:
        detail = f"{r.head} head ({r.source}); hole {r.hole:.2f}; {r.lies}"
        of, added = f"Ø{r.shank:g}", f"{r.cut - r.grip:.2f}"
        yield "rivet", shown(r.name), of, f"{r.grip:.2f}", added, f"{r.cut:.2f}", f"{r.mass:.4f}", detail
    for s in stock.screws:
        detail = f"tap drill {s.tap_drill}; clearance {s.clearance}; thread in {s.engagement:.2f}"
        yield "screw", shown(s.name), s.thread, "", "", f"{s.least_length:.2f}", "", detail


def _allowed(allowance: Allowance) -> str:
    return f"{allowance.what} {allowance.mm:.2f} ({allowance.source})"


def _no_formula(cell: str) -> str:
    return f"'{cell}" if cell[:1] in {"=", "+", "-", "@"} and not _is_number(cell) else cell


def _is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True
