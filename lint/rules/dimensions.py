"""What the drawing promises is what it shows.

Passes when:
    the overall width and height and one size of each kind of scroll are stated, and every stated length equals the
    drawn one.
Why:
    the smith cuts by the figure and bends by the drawing; where the two differ, one of them is forged in iron.
Measured:
    a dimension is a line with two ends and the text nearest to it. Its ends stand on, or square off, the outside or
    inside edges of the frame or the sides of a scroll, and then it is held against what was measured there; elsewhere
    against the distance between its ends. Radii and diameters are listed and not held against a line.
Default and its source:
    equal within 1/32 in or 0.5 %, whichever is more: common practice, no source; the finest that a forge rule shows.
Mend:
    correct the figure or the drawing, whichever is wrong; where all figures are out by one ratio, mend the scale.
"""

from __future__ import annotations

import re
from dataclasses import replace

from lint.lengths import INCH, say
from lint.panel.panel import Panel
from lint.panel.parts import Dimension
from lint.result import Gap, Kind, Place, Result, Sign
from lint.rules._corners import without_corners
from lint.rules._finding import Figure, Finding, judged
from lint.rules._missing_sizes import families, overall
from lint.rules._places import source, unscaled
from lint.rules._rule import rule
from lint.rules._strays import strays
from lint.sheet.sheet import Sheet

_INCHES = re.compile("in\\b|inch|ft|[\"'\u2032\u2033\u2019\u201d]", re.IGNORECASE)


@rule("dimensions")
def dimensions(panel: Panel, sheet: Sheet) -> Result:
    """Hold each stated length against the drawn one, and look for those that are missing."""
    unmeasured = unscaled("dimensions", panel) or without_corners("dimensions", panel)
    if unmeasured:
        return unmeasured
    findings = [_held(dimension, sheet) for dimension in panel.dimensions]
    findings += [*overall(panel, sheet), *families(panel, sheet)]
    findings += strays("dimensions", panel, "Draw the line that it measures beside it, with both its ends.")
    off = [abs(d.drawn - d.stated) for d in panel.dimensions if d.stated is not None and d.linear]
    asked = f"equal within {say(sheet.dimensions.length, sheet.units)} or {sheet.dimensions.ratio:.1%}"
    figure = Figure(measured=max(off, default=None), required=sheet.dimensions.length, unit="mm", asked=asked)
    said = (
        f"{len(off)} stated lengths equal the drawn ones" if len(off) != 1 else "The stated length equals the drawn one"
    )
    more = "; overall width and height and a size of each kind of scroll are stated" if sheet.dimensions.overall else ""
    result = judged("dimensions", findings, sheet, stands=f"{said}{more}.", figure=figure, also=_units(panel))
    widest = f"at most {result.figure} off" if result.kind is Kind.PASS and off else result.figure
    return replace(result, figure=widest)


def _units(panel: Panel) -> str:
    """A word where inches and millimetres stand side by side."""
    inches = {bool(_INCHES.search(d.text)) for d in panel.dimensions if d.stated is not None}
    return "Inches and millimetres are both used: each figure is read in its own unit." if len(inches) == 2 else ""


def _held(dimension: Dimension, sheet: Sheet) -> Finding:
    """One dimension: right, wrong, or no length at all."""
    a, b = dimension.between
    of = f"of {dimension.of}" if dimension.of else "between its ends"
    off = abs(dimension.drawn - dimension.stated) if dimension.stated is not None else 0.0
    limit = max(sheet.dimensions.length, sheet.dimensions.ratio * (dimension.stated or 0.0))
    drawn = say(dimension.drawn, sheet.units)
    if dimension.stated is None:
        note, sign = f'"{dimension.text[:60]}" is no length: {dimension.trouble.rstrip(".")}', Sign.LOOK
    elif not dimension.linear:
        note, sign = f"{dimension.text[:60]}: not held against a line", Sign.FACT
    elif off > limit + 1e-6:
        note, sign = f'"{dimension.text[:60]}" is stated and {drawn} is drawn {of}{_hint(dimension)}', Sign.MEND
    else:
        note, sign = f"{dimension.text[:60]} {of}: {drawn} drawn", Sign.STANDS
    trace = Gap(a=a, b=b, length=dimension.drawn)
    place = Place(x=(a[0] + b[0]) / 2, y=(a[1] + b[1]) / 2, note=note, sign=sign, source=source(dimension.origin),
                  measured=dimension.drawn, traces=(trace,))  # fmt: skip
    stated = say(dimension.stated, sheet.units) if dimension.stated else ""
    asked = f"{stated} as stated" if stated else "a length"
    figure = Figure(measured=dimension.drawn, required=dimension.stated, unit="mm", asked=asked)
    remedy = f"Write {drawn}, or draw it {stated} long." if stated else "Write the length, like 16 in or 400 mm."
    return Finding(place=place, figure=figure, remedy=remedy)


def _hint(dimension: Dimension) -> str:
    """What a wrong figure looks like."""
    ratio = dimension.drawn / dimension.stated if dimension.stated else 0.0
    if abs(ratio / INCH - 1) < 0.01:
        return ", which is the same figure in inches: write the unit"
    return ", which is the same figure in mm: write the unit" if abs(ratio * INCH - 1) < 0.01 else ""
