"""The drawing as it was, with one more group on top: the marks, and a mark sheet beside the drawing."""

from __future__ import annotations

import posixpath

from lint.errors import Refused
from lint.panel.panel import Panel
from lint.report.caution import CAUTION, entrapment, limit_used
from lint.report.markup.chart import Chart, extent_of
from lint.report.markup.legend import legend
from lint.report.markup.mark_sheet import GUTTER, Spread, draw_sheet, spread
from lint.report.markup.marks import draw_marks
from lint.report.markup.numbered import collect
from lint.report.markup.page import Box, Paper, grown, paper
from lint.report.markup.pen import Pen
from lint.report.markup.remarks import facts, head, notes
from lint.report.markup.room import Room
from lint.report.markup.rows import table
from lint.report.markup.sketch import Sketch
from lint.report.markup.title_block import Titles, foot
from lint.report.markup.underneath import Underneath, underneath
from lint.shown import shown
from lint.verdict import Verdict

NOMINAL = 210.0  # mm: how wide a page without a size is taken to be, its longer side at most 297


def markup(svg: bytes, verdict: Verdict, date: str = "") -> bytes:
    """The marked-up drawing, as plain SVG.

    `svg` is the file that `verdict` was made from (SVG or svgz; marked up before or not), `date` what stands in the
    title block. Every element of the original stays as it was, but for active content. Marking up what this returns
    with the same verdict gives the same bytes. Raises Refused where the drawing could not be read.
    """
    if verdict.panel is None:
        raise Refused(f"{shown(verdict.path)} could not be read, so it cannot be marked up: {verdict.error}")
    below = underneath(svg)
    page = paper(*(below.root.get(name) for name in ("width", "height", "viewBox", "preserveAspectRatio")))
    return below.with_marks(*_marks(verdict, verdict.panel, page, below, date))


def _marks(verdict: Verdict, panel: Panel, page: Paper, below: Underneath, date: str) -> tuple[str, dict[str, str]]:
    view = _view(page, panel)
    per_mm = 1 / page.mm_per_unit if page.mm_per_unit else max(view[2] / NOMINAL, view[3] / (NOMINAL * 2**0.5))
    found = collect(verdict.results)
    above = [head(verdict), *table(verdict.results, found), *facts(panel, verdict.sheet.units)]
    line = None if page.mm_per_unit is None else per_mm
    under = [*legend(), *foot(_titles(verdict, panel, page, date), _caution(verdict), line)]
    apart: list[str] = []
    while True:
        made = spread(view, per_mm, [*above, *notes(panel, found, below.left_out, apart), *under])
        sketch = _sketch(verdict, panel, view, made, apart)
        draw_marks(sketch, panel, found)
        if sketch.apart == apart:
            break
        apart = sketch.apart  # it only grows: a fact that once found no room stays on the sheet
    draw_sheet(sketch, made)
    return sketch.written_layers(), grown(page, made.page, sketch.pen.say)


def _view(page: Paper, panel: Panel) -> Box:
    """What the page shows, and any metal beyond its edge; the extent of the metal where the file has no page."""
    metal = extent_of(panel)
    if metal is None:
        return page.view or (0.0, 0.0, 100.0, 100.0)
    chart = Chart.of(panel)
    (left, top), (right, bottom) = chart.at(metal[:2]), chart.at(metal[2:])
    edge = 0.05 * max(right - left, bottom - top, 1e-9)
    if page.view is None:
        return left - edge, top - edge, right - left + 2 * edge, bottom - top + 2 * edge
    x, y, width, height = page.view
    near = 1e-3 * max(width, height)
    x0 = left - edge if left < x - near else x
    y0 = top - edge if top < y - near else y
    x1 = right + edge if right > x + width + near else x + width
    y1 = bottom + edge if bottom > y + height + near else y + height
    return x0, y0, x1 - x0, y1 - y0


def _sketch(verdict: Verdict, panel: Panel, view: Box, made: Spread, apart: list[str]) -> Sketch:
    margin, gutter = 1.5 * made.unit, (GUTTER - 1.5) * made.unit
    # what the page has beside or below the drawing, up to the sheet, is room too
    right = view[0] + view[2] + gutter if made.beside else made.page[0] + made.page[2] - margin
    bottom = made.page[1] + made.page[3] - margin if made.beside else view[1] + view[3] + gutter
    room = Room((view[0] + margin, view[1] + margin, right, bottom), made.unit)
    return Sketch(Pen.of(made.unit), Chart.of(panel), room, verdict.sheet.units, apart=list(apart))


def _titles(verdict: Verdict, panel: Panel, page: Paper, date: str) -> Titles:
    stem = posixpath.basename(verdict.path.replace("\\", "/")).replace(".marked.svg", ".svg")
    return Titles(
        title=panel.title,
        drawing=stem if stem != "-" else "",
        date=date,
        scale=_scale(panel, page),
        units="mm" if verdict.sheet.units == "mm" else "inches",
        sheet=verdict.sheet.name,
        digest=panel.digest[:12],
    )


def _scale(panel: Panel, page: Paper) -> str:
    """The scale of the drawing on its paper, written as ISO 5455 does."""
    if not panel.scale.known:
        return "none stated"
    if page.mm_per_unit is None:
        return "no paper"
    ratio = panel.scale.mm_per_unit / page.mm_per_unit
    return f"1:{ratio:.4g}" if ratio >= 0.9995 else f"{1 / ratio:.4g}:1"


def _caution(verdict: Verdict) -> str:
    sized = verdict.panel is not None and verdict.panel.scale.known
    return " ".join(filter(None, (limit_used(verdict), entrapment([verdict]) if sized else "", CAUTION)))
