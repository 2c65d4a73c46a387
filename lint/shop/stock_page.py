"""The stock list as one page to print and take to the saw: self-contained HTML, no script."""

from __future__ import annotations

from collections.abc import Sequence

from lint.shop.entries import BarLine, SectionTotal, StockList
from lint.shop.fastening_rows import sources_of
from lint.shop.fastenings_page import fastenings
from lint.shop.page_style import SENTENCE, STYLE, items, table
from lint.shop.picture import picture, strip
from lint.shop.table import (
    UNITS,
    allowance_words,
    bar_notes,
    bound_words,
)
from lint.shop.wording import CAUTIONS, escaped, length, mass, not_approved, section, with_unit


def as_page(stock: StockList) -> str:
    """The whole list as HTML: a picture of each bar, ticks for the saw, how to cut each bar from the rack."""
    title = escaped(stock.title) or "no title"
    stop = f'<p class="stop">{escaped(not_approved(stock.failing), SENTENCE)}</p>' if stock.failing else ""
    parts = [
        f"<h1>Stock list: {title}</h1>",
        f'<p class="under">{escaped(stock.path)} · sheet {escaped(stock.sheet)} · lengths in {UNITS[stock.units]} '
        f"· all metal {mass(stock.mass, stock.units)} · geometry {escaped(stock.digest[:12])}</p>{stop}",
        _bars(stock),
        *fastenings(stock),
        _formers(stock),
        _plans(stock),
        _listed("Notes", stock.notes),
        _sources(stock),
        f'<h2>Cautions</h2><div class="cautions"><ul>{items(CAUTIONS)}</ul></div>',
    ]
    head = f'<meta charset="utf-8"><title>Stock list: {title}</title><style>{STYLE}</style>'
    body = "\n".join(part for part in parts if part)
    return f'<!DOCTYPE html>\n<html lang="en"><head>{head}</head>\n<body>\n{body}\n</body></html>\n'


def _bars(stock: StockList) -> str:
    sources = sources_of(stock)
    head = ("<", "<bar", "section", "on the line", "allowed", "cut to", "mass", "cut")
    rows = (_bar(line, stock.units, sources) for line in stock.bars)
    said = "Section: width seen x depth. Numbers in [ ] are sources, listed at the end."
    return f'<h2>Bars</h2><p class="under">{said}</p>{table(head, rows)}'


def _bar(line: BarLine, units: str, sources: Sequence[str]) -> str:
    pic = picture(line.line, line.section.width if line.section else None, line.name)
    kind = f"{line.kind}{f', family {line.family}' if line.family else ''}"
    ends = f" · ends {escaped(' / '.join(line.ends))}" if line.ends else ""
    notes = [note for note in bar_notes(line, units, sources) if note != _allowed(line, units, sources)]
    under = "".join(
        f'<span class="small">{escaped(note, SENTENCE)}</span>' for note in (_allowed(line, units, sources), *notes)
    )
    cells = (
        f'<td class="pic">{pic}</td><td class="name"><b>{escaped(line.name)}</b> '
        f'<span class="small">{kind}{ends}</span>{under}</td>',
        f'<td class="figure">{section(line.section, units) if line.section else "not known"}</td>',
        f'<td class="figure">{length(line.developed, units)}</td>',
        f'<td class="figure">+{length(line.net - line.developed, units)}</td>',
        f'<td class="cut">{length(line.cut, units, 0)}</td>',
        f'<td class="figure">{mass(line.mass, units) if line.mass is not None else "not known"}</td>',
        '<td><span class="tick"></span></td>',
    )
    return f"<tr>{''.join(cells)}</tr>"


def _allowed(line: BarLine, units: str, sources: Sequence[str]) -> str:
    return allowance_words(line.allowances, units, sources)


def _formers(stock: StockList) -> str:
    if not stock.jigs:
        return ""
    rows = [
        f'<tr><td class="name"><b>Former {jig.family}</b> ({escaped(jig.shape)})'
        f'<span class="small">{escaped(jig.words, SENTENCE)}</span></td>'
        f'<td class="name">{escaped(", ".join(jig.as_it_stands), SENTENCE)}</td>'
        f'<td class="name">{escaped(", ".join(jig.turned_over), SENTENCE) or "–"}</td></tr>'
        for jig in stock.jigs
    ]
    head = ("<former", "<makes as it stands", "<makes turned over")
    said = "A former follows the scroll's inside face: the centreline less half the bar."
    return f'<h2>Jigs, one former each: {len(stock.jigs)}</h2><p class="under">{said}</p>{table(head, rows)}'


def _plans(stock: StockList) -> str:
    if not stock.totals:
        return ""
    plans = "".join(_plan(total, stock.units) for total in stock.totals)
    said = f'<p class="under">Each cut loses {with_unit(stock.kerf, stock.units)}.</p>'
    return f"<h2>To buy, and how to cut it</h2>{said}{plans}"


def _plan(total: SectionTotal, units: str) -> str:
    longest = max((bar.stock for bar in total.plan.bars), default=1.0)
    strips = "".join(_strip_and_words(total, n, longest, units) for n in range(len(total.plan.bars)))
    long = [f"{p.name}: {with_unit(p.length, units, 0)} is longer than any bar on sale" for p in total.plan.too_long]
    pieces = f"{total.pieces} piece{'s' if total.pieces != 1 else ''}"
    said = f"{pieces}, {with_unit(total.length, units, 0)}, {mass(total.mass, units)}"
    return (
        f'<div class="plan"><b>{section(total.section, units)}</b>, {total.what}: {said}. '
        f"{escaped(bound_words(total.plan, units), SENTENCE)}.{strips}<ul>{items(long)}</ul></div>"
    )


def _strip_and_words(total: SectionTotal, number: int, longest: float, units: str) -> str:
    bar = total.plan.bars[number]
    names = " · ".join(f"{escaped(p.name)} {length(p.length, units, 0)}" for p in bar.pieces)
    return f'{strip(bar, longest, units)}<span class="small">bar of {with_unit(bar.stock, units, 0)}: {names}</span>'


def _listed(title: str, words: Sequence[str]) -> str:
    return f"<h2>{title}</h2><ul>{items(words)}</ul>" if words else ""


def _sources(stock: StockList) -> str:
    told = sources_of(stock)
    return f'<h2>Where the allowances come from</h2><ol class="sources">{items(told)}</ol>' if told else ""
