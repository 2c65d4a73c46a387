"""A sheet that allows nothing, and a stock list by name, so that a test reckons one thing."""

from __future__ import annotations

from dataclasses import replace

from lint.sheet import load_default
from lint.sheet.sheet import Sheet
from lint.shop.entries import StockList


def plain_sheet() -> Sheet:
    """The default sheet with no allowance but for ends, so that a test reckons one thing."""
    sheet = load_default()
    none = replace(sheet.allowances, forged_corner=0.0, tenon=0.0, trim=0.0, scaling=0.0)
    return replace(sheet, allowances=none)


def by_name(stock: StockList) -> dict[str, float]:
    return {line.name: line.net for line in stock.bars}
