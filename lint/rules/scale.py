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
from lint.sheet.sheet import Sheet

_ASKED = "a real size on which all that state one agree"
_NONE = "The drawing has no real size: the page states no mm or inches, and there is neither a scale nor a dimension."
_SET = 'Set the page\'s size in mm or inches, or write the scale on a layer "scale", like 1:4 or full size.'


@rule("scale")
def scale(panel: Panel, sheet: Sheet) -> Result:
    """Hold every statement of size against the one that counts."""
    if not panel.scale.sources:
        return Result(rule="scale", kind=Kind.FAIL, message=_unknown(panel), remedy=_SET, asked=_ASKED)
    off = disagreeing(panel.scale, sheet)
    kind = Kind.FAIL if off else Kind.REVIEW if panel.scale.hint or panel.scale.pixels_only else Kind.PASS
    return Result(
        rule="scale",
        kind=kind,
        message=_message(panel, off),
        remedy=_remedy(panel, off),
        measured=panel.scale.mm_per_unit,
        required=off[0].mm_per_unit if off else None,
        unit="mm",
        figure=f"{panel.scale.mm_per_unit:.6g} mm to the page unit",
        asked=_ASKED,
        places=tuple(_place(panel, s, s in off) for s in panel.scale.sources if s.origin),
    )


def _unknown(panel: Panel) -> str:
    stated = [dimension for dimension in panel.dimensions if dimension.stated]
    if len(stated) < 2:
        return _NONE
    return "The drawing has no real size: the page states none, and the dimensions do not agree with one another."


def _message(panel: Panel, off: tuple[ScaleSource, ...]) -> str:
    held = panel.scale.sources[0]
    if off:
        share = off[0].mm_per_unit / panel.scale.mm_per_unit
        said = f"{_said(held)} and {_said(off[0])} do not agree: by the second all is {share:.4g} times as large"
        return _sentence(f"{said}; {panel.scale.hint}" if panel.scale.hint else said)
    if panel.scale.hint:
        return _sentence(
            f"{_said(held)} gives {panel.scale.mm_per_unit:.5g} mm to the page unit, but {panel.scale.hint}"
        )
    if panel.scale.pixels_only:
        return (
            "The page is in pixels, read as 96 to the inch, and nothing on the drawing states a length to hold it to."
        )
    others = [_said(other) for other in panel.scale.sources[1:]]
    more = f", borne out by {' and '.join(others)}" if others else ""
    return _sentence(f"{_said(held)} gives {panel.scale.mm_per_unit:.5g} mm to the page unit{more}")


def _remedy(panel: Panel, off: tuple[ScaleSource, ...]) -> str:
    if off:
        return "Make the statements agree: correct the one that is wrong, set the scale, or export the drawing again."
    if panel.scale.hint:
        return "Write the true scale on a layer scale, or correct the page's size and export again."
    return _SET if panel.scale.pixels_only else ""


def _said(statement: ScaleSource) -> str:
    if statement.by == "option":
        return f"the option --scale {statement.says}"
    if statement.by == "scale layer":
        return f'the scale layer ("{statement.says[:40]}")'
    return statement.says


def _sentence(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}."


def _place(panel: Panel, statement: ScaleSource, off: bool) -> Place:
    at = statement.at or panel.origin
    note = f"{statement.says[:60]}: {statement.mm_per_unit:.5g} mm to the page unit"
    sign = Sign.MEND if off else Sign.STANDS
    where = source(statement.origin) if statement.origin else Source()
    return Place(x=at[0], y=at[1], note=note, sign=sign, source=where, traces=(Spot(x=at[0], y=at[1]),))
