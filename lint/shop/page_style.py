"""The look of the printed stock list, and its lists and tables. HTML strings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from lint.shop.wording import escaped

SENTENCE = 400  # characters of a sentence of ours with names in it
STYLE = """
@page { size: portrait; margin: 14mm 12mm }
* { box-sizing: border-box }
body { font: 10pt/1.35 "Liberation Sans", Arial, Helvetica, sans-serif; color: #111; max-width: 186mm; margin: 0 auto;
  padding: 6mm 0 }
@media print { body { padding: 0 } }
h1 { font-size: 17pt; margin: 0 0 1mm; line-height: 1.15 }
h2 { font-size: 12pt; margin: 7mm 0 2mm; border-bottom: .5mm solid #111; padding-bottom: .6mm; break-after: avoid }
p.under { margin: 0 0 3mm; color: #444 }
p.stop { border: .7mm solid #111; padding: 2mm 3mm; font-weight: bold; margin: 3mm 0 }
table { border-collapse: collapse; width: 100% }
th { text-align: right; font-weight: normal; font-size: 8.5pt; color: #444; padding: 1mm 1.5mm; vertical-align: bottom;
  border-bottom: .25mm solid #111 }
td { text-align: right; padding: 1.6mm 1.5mm; vertical-align: top; border-top: .18mm solid #aaa;
  font-variant-numeric: tabular-nums }
th.name, td.name { text-align: left } td.name { overflow-wrap: anywhere }
tr { break-inside: avoid }
.cut { font-weight: bold; font-size: 12pt; white-space: nowrap } .figure { white-space: nowrap }
.small { display: block; font-size: 8.5pt; line-height: 1.3; color: #333; font-weight: normal }
td.pic { width: 37mm; padding-left: 0 } svg.bar { width: 35mm; height: 24mm; display: block }
svg.strip { width: 100%; display: block; margin: .8mm 0 } .plan { break-inside: avoid; margin: 0 0 4mm }
.piece { fill: #fff; stroke: #111; stroke-width: .35 } .rest { fill: #e4e4e4; stroke: #111; stroke-width: .18 }
.tick { display: inline-block; width: 4mm; height: 4mm; border: .35mm solid #111 }
ol, ul { margin: 1mm 0; padding-left: 6mm } li { margin: .6mm 0 } .sources { font-size: 8.5pt; color: #333 }
.cautions { border: .35mm solid #111; padding: 1mm 3mm; break-inside: avoid }
"""


def items(words: Iterable[str]) -> str:
    """Sentences as list items, escaped."""
    return "".join(f"<li>{escaped(one, SENTENCE)}</li>" for one in words)


def table(head: Sequence[str], rows: Iterable[str]) -> str:
    """A table; a head that begins with "<" stands to the left, others to the right."""
    names = "".join(f"<th{_name_class(cell)}>{cell.removeprefix('<')}</th>" for cell in head)
    return f"<table><thead><tr>{names}</tr></thead><tbody>{''.join(rows)}</tbody></table>"


def _name_class(cell: str) -> str:
    return ' class="name"' if cell.startswith("<") else ""
