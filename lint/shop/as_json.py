"""The stock list for machines: lengths in mm, masses in kg, stable order, no times."""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import Any

from lint.sheet.sheet import Section
from lint.shop.cutting import Plan
from lint.shop.entries import BarLine, SectionTotal, StockList

VERSION = 1


def as_json(stock: StockList) -> str:
    """The list as JSON (RFC 8259) by the schema `stock-1.json` (JSON Schema 2020-12), which the package carries beside
    that of the results."""
    told: dict[str, Any] = {
        "version": VERSION,
        "path": stock.path,
        "title": stock.title,
        "sheet": stock.sheet,
        "digest": stock.digest,
        "unit": "mm",
        "approved": not stock.failing,
        "failing": list(stock.failing),
        "bars": [_bar(line) for line in stock.bars],
        "collars": [_rounded(asdict(line)) for line in stock.collars],
        "rivets": [_rounded(asdict(line)) for line in stock.rivets],
        "screws": [_rounded(asdict(line)) for line in stock.screws],
        "formers": [_rounded(asdict(jig)) for jig in stock.jigs],
        "sections": [_total(total) for total in stock.totals],
        "kerf": stock.kerf,
        "mass": round(stock.mass, 4),
        "notes": list(stock.notes),
    }
    return json.dumps(told, indent=2, ensure_ascii=True) + "\n"


def _bar(line: BarLine) -> dict[str, Any]:
    return {
        "id": line.id,
        "name": line.name,
        "kind": line.kind,
        "section": _section(line.section) if line.section else None,
        "section_from": line.section_from,
        "developed": round(line.developed, 3),
        "allowances": [_rounded(asdict(allowance)) for allowance in line.allowances],
        "cut": round(line.cut, 3),
        "mass": None if line.mass is None else round(line.mass, 4),
        "family": line.family,
        "ends": list(line.ends),
        "corner_marks": [round(mark, 3) for mark in line.marks],
        "notes": list(line.notes),
    }


def _total(total: SectionTotal) -> dict[str, Any]:
    return {
        "section": _section(total.section),
        "what": total.what,
        "pieces": total.pieces,
        "length": round(total.length, 3),
        "mass": round(total.mass, 4),
        "plan": _plan(total.plan),
    }


def _section(section: Section) -> dict[str, float | None]:
    return {"width": section.width, "depth": section.depth}


def _plan(plan: Plan) -> dict[str, Any]:
    return {
        "bought": round(plan.bought, 3),
        "bound": round(plan.bound, 3),
        "proven": plan.proven,
        "how": plan.how,
        "bars": [
            {"stock": bar.stock, "left": round(bar.left, 3), "pieces": [_rounded(asdict(p)) for p in bar.pieces]}
            for bar in plan.bars
        ],
        "too_long": [_rounded(asdict(piece)) for piece in plan.too_long],
    }


def _rounded(value: Any) -> Any:
    """Floats to a millionth, so that two machines write the same bytes; everything else as it is."""
    if isinstance(value, float):
        return round(value, 6)
    if isinstance(value, dict):
        return {key: _rounded(one) for key, one in value.items()}
    return [_rounded(one) for one in value] if isinstance(value, list | tuple) else value
