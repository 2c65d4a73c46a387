"""The stock list for a terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence
from itertools import groupby

from lint.shop.cutting import CutBar, Plan
from lint.shop.entries import Allowance, BarLine, StockList
from lint.shop.fastening_rows import (
    COLLARS,
    RIVETS,
    SCREWS,
    collar_rows,
    rivet_rows,
    screw_rows,
    sources_of,
)
from lint.shop.wording import CAUTIONS, length, mass, not_approved, section, with_unit
from lint.shown import shown

UNITS = {"mm": "mm", "in": "inches"}
Rows = Sequence[Sequence[str]]


def as_text(stock: StockList) -> str:
    """The whole list for people, in the sheet's unit, ending in a line break."""
    parts = [_head(stock), _bars(stock), *_fastenings(stock), _jigs(stock)]
    parts += [
        _totals(stock),
        _notes(stock),
        _sources(stock),
        "Cautions\n" + "\n".join(f"  - {said}" for said in CAUTIONS),
    ]
    return "\n\n".join(part for part in parts if part) + "\n"


def _head(stock: StockList) -> str:
    title = shown(stock.title) or "no title"
    lines = [
        f"Stock list: {title}",
        f"{shown(stock.path)}, sheet {shown(stock.sheet)}, lengths in {UNITS[stock.units]}",
    ]
    return "\n".join(lines + ([not_approved(stock.failing)] if stock.failing else []))


def _table(title: str, head: Sequence[str], rows: Rows, under: Sequence[Sequence[str]]) -> str:
    """Columns padded to fit, the first to the left and the others to the right; each row's notes under it."""
    if not rows:
        return ""
    widths = [max(len(row[column]) for row in [head, *rows]) for column in range(len(head))]

    def laid(row: Sequence[str]) -> str:
        first = row[0].ljust(widths[0])
        return "  " + "  ".join([first, *(cell.rjust(w) for cell, w in zip(row[1:], widths[1:], strict=True))]).rstrip()

    body = [[laid(row), *_indented(notes)] for row, notes in zip(rows, under, strict=True)]
    return "\n".join([title, laid(head), *(line for lines in body for line in lines)])


def _indented(notes: Iterable[str]) -> list[str]:
    """Notes under a row, broken at 100 signs."""
    first, more = " " * 6, " " * 8
    return [line for note in notes for line in textwrap.wrap(note, 106, initial_indent=first, subsequent_indent=more)]


def allowance_words(allowances: Iterable[Allowance], units: str, sources: Sequence[str]) -> str:
    """What is allowed, equal ones together, each with the number of its source: "2 x square corner 24.0 [1]"."""
    groups = [list(alike) for _, alike in groupby(allowances, key=lambda a: (a.what, a.source))]
    return ", ".join(
        f"{f'{len(g)} x ' if len(g) > 1 else ''}{g[0].what} {length(sum(a.mm for a in g), units)} "
        f"[{sources.index(g[0].source) + 1}]"
        for g in groups
    )


def _bars(stock: StockList) -> str:
    head = ("bar", "section", "on the line", "allowed", "cut", "mass")
    rows = [
        (
            shown(f"{line.name} (sample)" if line.kind == "sample" else line.name, 40),
            section(line.section, stock.units) if line.section else "not known",
            length(line.developed, stock.units),
            f"+{length(line.net - line.developed, stock.units)}",
            length(line.cut, stock.units, 0),
            mass(line.mass, stock.units) if line.mass is not None else "not known",
        )
        for line in stock.bars
    ]
    sources = sources_of(stock)
    under = [bar_notes(line, stock.units, sources) for line in stock.bars]
    return _table("Bars (section: width seen x depth)", head, rows, under)


def bar_notes(line: BarLine, units: str, sources: Sequence[str]) -> list[str]:
    """What stands under a bar: its allowances with their sources, corner marks, and remarks."""
    said = [allowance_words(line.allowances, units, sources)] if line.allowances else []
    if line.marks:
        where = ", ".join(length(mark, units) for mark in line.marks)
        said.append(f"mark the middle of each square corner at {where} from one end, before upsetting")
    if line.section_from not in {"drawing", ""}:
        said.append(f"section: {line.section_from}")
    return [*said, *(shown(note, 200) for note in line.notes)]


def _fastenings(stock: StockList) -> list[str]:
    kinds = (
        (
            "Collars (stock = P + 2 pi K t; P taut round the bars, t thickness of the strip)",
            COLLARS,
            collar_rows(stock),
        ),
        ("Rivets (one head made, one to form; hole 0.5 mm over the shank: common practice)", RIVETS, rivet_rows(stock)),
        ("Hidden screws", SCREWS, screw_rows(stock)),
    )
    return [
        _table(title, head, [(row.name, *row.cells) for row in rows], [row.notes for row in rows])
        for title, head, rows in kinds
    ]


def _jigs(stock: StockList) -> str:
    if not stock.jigs:
        return ""
    lines = [f"Jigs, one former each: {len(stock.jigs)}"]
    for jig in stock.jigs:
        over = f"; turned over: {_listed(jig.turned_over)}" if jig.turned_over else ""
        lines.append(f"  former {jig.family} ({jig.shape}): {_listed(jig.as_it_stands)}{over}")
        lines += _indented([jig.words])
    return "\n".join(lines)


def _listed(names: Iterable[str]) -> str:
    return ", ".join(shown(name, 40) for name in names)


def _totals(stock: StockList) -> str:
    lines = [f"To buy (each cut loses {with_unit(stock.kerf, stock.units)})"]
    for total in stock.totals:
        pieces = f"{total.pieces} piece{'s' if total.pieces != 1 else ''}"
        of = f"{section(total.section, stock.units)}, {total.what}: {pieces}"
        lines.append(f"  {of}, {with_unit(total.length, stock.units)}, {mass(total.mass, stock.units)}")
        lines += [f"      {line}" for line in plan_lines(total.plan, stock.units)]
    return "\n".join([*lines, f"  All metal: {mass(stock.mass, stock.units)}"]) if stock.totals else ""


def plan_lines(plan: Plan, units: str) -> list[str]:
    """How to cut each bar, equal ones together, and how near the plan is to the least."""
    groups = [list(alike) for _, alike in groupby(plan.bars, key=lambda bar: _cuts(bar, units))]
    lines = [
        f"{len(g)} bar{'s' if len(g) > 1 else ''} of {with_unit(g[0].stock, units, 0)}: {_cuts(g[0], units)}; "
        f"{length(g[0].left, units, 0)} left"
        for g in groups
    ]
    lines += [
        f"{shown(piece.name, 40)}: {with_unit(piece.length, units, 0)} is longer than any bar on sale"
        for piece in plan.too_long
    ]
    return [*lines, bound_words(plan, units)] if plan.bars else lines


def bound_words(plan: Plan, units: str) -> str:
    """How near the plan is to the least metal, and how it was made."""
    bought, bound = with_unit(plan.bought, units, 0), with_unit(plan.bound, units, 0)
    if plan.proven:
        return f"{bought} bought; no plan can buy less"
    return f"{bought} bought; no plan can buy less than {bound}, so this may not be the least ({plan.how})"


def _cuts(bar: CutBar, units: str) -> str:
    return " + ".join(length(piece.length, units, 0) for piece in bar.pieces)


def _notes(stock: StockList) -> str:
    return "Notes\n" + "\n".join(f"  - {shown(note, 300)}" for note in stock.notes) if stock.notes else ""


def _sources(stock: StockList) -> str:
    told = [f"  [{n}] {shown(source, 200)}" for n, source in enumerate(sources_of(stock), start=1)]
    return "\n".join(["Where the allowances come from", *told]) if told else ""
