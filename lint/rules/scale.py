"""The drawing has a real size, and all that state one agree.

Passes when:
    somebody states a real size (the --scale option, the scale layer, the dimensions, or a page with a physical size)
    and all that do agree.
Why:
    every other figure hangs on it. A panel drawn at three quarters of its size looks right on the screen, and its
    openings come out a third too large.
Measured:
    real millimetres to the page unit, by each statement. A scale in words ("1:4") counts from the page's size, a
    reference line and the dimensions by their own length; most of the dimensions must agree with one another to
    count. A bare viewBox or "100 %" is no size. A page in pixels with nothing stated on the drawing is looked at:
    several editors write points, or dots of another size, as pixels.
Default and its source:
    statements agree within 1 % or 0.5 mm: common practice, no source; far finer than the export errors that it is to
    catch (72/96, 90/96, 25.4/96 and whole scales). CSS absolute lengths: 1 in = 96 px = 25.4 mm (W3C, CSS Values).
Mend:
    set the page's size in mm or inches and export again, or write the scale on a layer "scale" ("1:4", or a line with
    its real length beside it), or say --scale 1:4.
"""

from __future__ import annotations

from lint.panel.panel import Panel
from lint.panel.parts import ScaleSource
from lint.panel.scale import disagreeing
from lint.result import Kind, Place, Result, Sign, Source, Spot
from lint.rules._places import source
from lint.rules._rule import rule
from lint.rules._scale_words import SET, no_size, what_is_said, what_to_do
from lint.rules._strays import strays
from lint.sheet.sheet import Sheet

_ASKED = "a real size on which all that state one agree"


@rule("scale")
def scale(panel: Panel, sheet: Sheet) -> Result:
    """Hold every statement of size against the one that counts."""
    if not panel.scale.sources:
        return Result(rule="scale", kind=Kind.FAIL, message=no_size(panel), remedy=SET, asked=_ASKED)
    off = disagreeing(panel.scale, sheet)
    odd = strays("scale", panel, "")
    doubt = panel.scale.hint or panel.scale.pixels_only or odd
    kind = Kind.FAIL if off else Kind.REVIEW if doubt else Kind.PASS
    return Result(
        rule="scale",
        kind=kind,
        message=what_is_said(panel, off),
        remedy=what_to_do(panel, off),
        measured=panel.scale.mm_per_unit,
        required=off[0].mm_per_unit if off else None,
        unit="mm",
        figure=f"{panel.scale.mm_per_unit:.6g} mm to the page unit",
        asked=_ASKED,
        places=(*(_place(panel, s, s in off) for s in panel.scale.sources if s.origin), *(f.place for f in odd)),
    )


def _place(panel: Panel, statement: ScaleSource, off: bool) -> Place:
    at = statement.at or panel.origin
    note = f"{statement.says[:60]}: {statement.mm_per_unit:.5g} mm to the page unit"
    sign = Sign.MEND if off else Sign.STANDS
    where = source(statement.origin) if statement.origin else Source()
    return Place(x=at[0], y=at[1], note=note, sign=sign, source=where, traces=(Spot(x=at[0], y=at[1]),))
