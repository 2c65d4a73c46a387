"""A blank drawing: true size, every layer in place, and a frame of the sheet's bar, ready for any editor."""

from __future__ import annotations

from lint.lengths import INCH, say
from lint.sheet.sheet import Sheet
from lint.values import dataclass

_INKSCAPE = "http://www.inkscape.org/namespaces/inkscape"
_LAYERS = {
    "frame": "the frame's members; a member's line width is the bar's width",
    "scrolls": "one line for each scroll, as wide as the bar",
    "bars": "infill bars that are no scrolls",
    "samples": "sample scrolls, beside the panel",
    "collars": "one small rectangle for each collar, over the bars it holds",
    "rivets": "one small circle for each rivet, where the bars touch",
    "screws": "one small circle for each hidden screw",
    "joints": "one mark on each joint of the frame",
    "radius": "an arc along the inside of each rounded corner",
    "ends": "the name of each scroll end, beside it",
    "dimensions": "a line from end to end, with its length beside it",
    "notes": "anything: nothing here is measured",
}
_STEEL, _INK, _BLUE = "#8d949b", "#1d2329", "#1f5fa8"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plan:
    """The sizes of a blank, in mm: the frame outside, its bar, and the margin round it."""

    width: float
    height: float
    bar: float
    margin: float


def blank(width: float, height: float, sheet: Sheet, *, units: str) -> bytes:
    """An SVG page in true size with a frame of `width` by `height` mm outside, in members of the sheet's bar.

    The frame is a U forged in one piece with a top bar tenoned between its legs, its joints, inside radii and
    overall sizes in place. `units` ("mm" or "in") is the unit of the page. Raises ValueError with a sentence
    where the frame leaves no room inside or is larger than 100 m.
    """
    bar = sheet.stock.frame.width
    if not (6 * bar <= min(width, height) and max(width, height) <= 100_000):
        raise ValueError(
            f"A frame of {say(width, units)} by {say(height, units)} is no panel: with a bar of {say(bar, units)} "
            f"each side must measure at least {say(6 * bar, units)}, and at most 100 m."
        )
    plan = _Plan(width=width, height=height, bar=bar, margin=max(30.0, min(width, height) / 8))
    unit = INCH if units == "in" else 1.0
    wide, high = (_figure((side + 2 * plan.margin) / unit) for side in (width, height))
    layers = "\n".join(_layer(name, about, plan, units) for name, about in _LAYERS.items())
    margin = _figure(plan.margin / unit)
    inside = f'<g id="panel" transform="translate({margin},{margin}) scale({_figure(1 / unit, 9)})">\n{layers}\n</g>'
    if unit == 1.0:
        inside = f'<g id="panel" transform="translate({margin},{margin})">\n{layers}\n</g>'
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" xmlns:inkscape="{_INKSCAPE}" version="1.1" '
        f'width="{wide}{units}" height="{high}{units}" viewBox="0 0 {wide} {high}">\n'
        f"<title>New panel</title>\n{inside}\n</svg>\n"
    ).encode()


def _layer(name: str, about: str, plan: _Plan, units: str) -> str:
    made = {"frame": _frame, "joints": _joints, "radius": _radii}.get(name)
    body = made(plan) if made else ""
    if name == "dimensions":
        body = _sizes(plan, units)
    return f'<g id="{name}" inkscape:groupmode="layer" inkscape:label="{name}"><desc>{about}</desc>{body}</g>'


def _frame(plan: _Plan) -> str:
    w, h, b = plan.width, plan.height, plan.bar
    half = b / 2
    legs = f"M {_at(half, 0)} L {_at(half, h - half)} L {_at(w - half, h - half)} L {_at(w - half, 0)}"
    top = f"M {_at(b, half)} L {_at(w - b, half)}"
    style = f'fill="none" stroke="{_STEEL}" stroke-width="{_figure(b)}"'
    return f'\n<path id="frame-u" d="{legs}" {style}/>\n<path id="frame-top" d="{top}" {style}/>\n'


def _joints(plan: _Plan) -> str:
    half = plan.bar / 2
    rings = [
        f'<circle id="joint-{n}" cx="{_figure(x)}" cy="{_figure(half)}" r="{_figure(plan.bar / 3)}" '
        f'fill="#ffffff" stroke="{_INK}" stroke-width="0.5"/>'
        for n, x in enumerate((half, plan.width - half), 1)
    ]
    return "\n" + "\n".join(rings) + "\n"


def _radii(plan: _Plan) -> str:
    b, r, bottom = plan.bar, plan.bar / 2, plan.height - plan.bar
    arcs = [
        f'<path id="radius-{n}" d="M {_at(x, bottom - r)} A {_figure(r)},{_figure(r)} 0 0 {sweep} '
        f'{_at(x + way * r, bottom)}" fill="none" stroke="{_BLUE}" stroke-width="0.7"/>'
        for n, x, way, sweep in ((1, b, 1, 0), (2, plan.width - b, -1, 1))
    ]
    return "\n" + "\n".join(arcs) + "\n"


def _sizes(plan: _Plan, units: str) -> str:
    w, h, away = plan.width, plan.height, min(14.0, plan.margin / 2)
    text = f'font-family="sans-serif" font-size="6" text-anchor="middle" fill="{_INK}"'
    line = f'fill="none" stroke="{_BLUE}" stroke-width="0.5"'
    wide, high = (_stated(side, units) for side in (w, h))
    return (
        f'\n<line id="size-width" x1="0" y1="{_figure(h + away)}" x2="{_figure(w)}" y2="{_figure(h + away)}" {line}/>'
        f'<text id="size-width-words" x="{_figure(w / 2)}" y="{_figure(h + away - 2)}" {text}>{wide}</text>'
        f'\n<line id="size-height" x1="{_figure(-away)}" y1="0" x2="{_figure(-away)}" y2="{_figure(h)}" {line}/>'
        f'<text id="size-height-words" transform="translate({_figure(-away - 2)},{_figure(h / 2)}) rotate(-90)" '
        f"{text}>{high}</text>\n"
    )


def _stated(mm: float, units: str) -> str:
    return f"{_figure(mm / INCH)} in" if units == "in" else f"{_figure(mm)} mm"


def _at(x: float, y: float) -> str:
    return f"{_figure(x)},{_figure(y)}"


def _figure(number: float, digits: int = 4) -> str:
    return f"{number:.{digits}f}".rstrip("0").rstrip(".") or "0"
