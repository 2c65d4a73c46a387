"""What the rule of scale says of a drawing, and what it asks for."""

from __future__ import annotations

from lint.panel.panel import Panel
from lint.panel.parts import ScaleSource
from lint.panel.ratios import export_ratio

_NONE = "The drawing has no real size: the page states no mm or inches, and there is neither a scale nor a dimension."
SET = 'Set the page\'s size in mm or inches, or write the scale on a layer "scale", like 1:4 or full size.'


def no_size(panel: Panel) -> str:
    """Why the drawing has no size."""
    stated = [dimension for dimension in panel.dimensions if dimension.stated]
    if len(stated) < 2:
        return _NONE
    return "The drawing has no real size: the page states none, and the dimensions do not agree with one another."


def what_is_said(panel: Panel, off: tuple[ScaleSource, ...]) -> str:
    """What the statements of size come to, in one sentence."""
    held = panel.scale.sources[0]
    if off:
        share = off[0].mm_per_unit / panel.scale.mm_per_unit
        said = f"{_said(held)} and {_said(off[0])} do not agree: by the second all is {share:.4g} times as large"
        why = export_ratio(1 / share) if off[0].by == "dimensions" else ""
        hint = panel.scale.hint or (f"this looks like {why}" if why else "")
        return _sentence(f"{said}; {hint}" if hint else said)
    if panel.scale.hint:
        return _sentence(
            f"{_said(held)} gives {panel.scale.mm_per_unit:.5g} mm to the page unit, but {panel.scale.hint}"
        )
    if panel.scale.pixels_only:
        return (
            "The page is in pixels, read as 96 to the inch, and nothing on the drawing states a length to hold it to."
        )
    if odd := [stray.sentence for stray in panel.strays if stray.rule == "scale"]:
        return _sentence(f"{odd[0]}; {_said(held)} gives {panel.scale.mm_per_unit:.5g} mm to the page unit")
    others = [_said(other) for other in panel.scale.sources[1:]]
    more = f", borne out by {' and '.join(others)}" if others else ""
    return _sentence(f"{_said(held)} gives {panel.scale.mm_per_unit:.5g} mm to the page unit{more}")


def what_to_do(panel: Panel, off: tuple[ScaleSource, ...]) -> str:
    """What to change, "" where all is well."""
    if off:
        return "Make the statements agree: correct the one that is wrong, set the scale, or export the drawing again."
    if panel.scale.hint:
        return "Write the true scale on a layer scale, or correct the page's size and export again."
    if any(stray.rule == "scale" for stray in panel.strays):
        return "Write the scale like 1:4, or move words that are no scale to a layer called notes."
    return SET if panel.scale.pixels_only else ""


def _said(statement: ScaleSource) -> str:
    if statement.by == "option":
        return f"the option --scale {statement.says}"
    if statement.by == "scale layer":
        return f'the scale layer ("{statement.says[:40]}")'
    return statement.says


def _sentence(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}."
