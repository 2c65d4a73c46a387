"""One element -> chains of cubic pieces in its own user units."""

from __future__ import annotations

import math

import numpy as np

from lint.drawing import pathdata
from lint.drawing.pen import Pen, chain
from lint.drawing.style import Style
from lint.drawing.values import Attributes, length
from lint.geometry.chain import Chain, Floats
from lint.values import dataclass

SHAPES = frozenset(("path", "line", "polyline", "polygon", "rect", "circle", "ellipse"))


@dataclass(frozen=True, slots=True)
class Shape:
    """`chains` in the element's own units; `fault` is a clause on what is broken in it, or ""."""

    chains: tuple[Chain, ...]
    fault: str = ""


class _Broken(ValueError):
    """An attribute of a basic shape that cannot be read; its text is a clause."""


def _unit_circle() -> Floats:
    """A circle of radius 1 as eight pieces from 3 o'clock, y down: handles 4/3 tan(a/4), a = 45 degrees."""
    angles = np.arange(9) * (math.pi / 4)
    on = np.column_stack((np.cos(angles), np.sin(angles)))
    on[8] = on[0]
    along = np.column_stack((-on[:, 1], on[:, 0])) * (4 / 3 * math.tan(math.pi / 16))
    return np.stack((on[:-1], on[:-1] + along[:-1], on[1:] - along[1:], on[1:]), axis=1)


def _unit_square() -> Floats:
    """The square from 0, 0 to 1, 1 as four pieces from its upper left corner, y down, handles at thirds."""
    corners = np.array([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0), (0.0, 0.0)])
    a, b = corners[:-1], corners[1:]
    return np.stack((a, (2 * a + b) / 3, (a + 2 * b) / 3, b), axis=1)


_CIRCLE = _unit_circle()
_SQUARE = _unit_square()


def shape(tag: str, attributes: Attributes, style: Style, viewport: tuple[float, float]) -> Shape:
    """The curves of an element called `tag`. Percentages are of `viewport`, user units.

    A broken path or list of points gives what stands before the error, with the fault. Raises BadNumber for a
    number beyond the limits.
    """
    if tag == "path":
        return _path(_css_path(style) or attributes.get("d") or "")
    if tag in ("polyline", "polygon"):
        return _points(attributes.get("points") or "", closed=tag == "polygon")
    try:
        return Shape(_BASIC[tag](_Figures(attributes, style, viewport)))
    except _Broken as trouble:
        return Shape((), str(trouble))


def _css_path(style: Style) -> str:
    """`d: path("...")` in CSS stands before the attribute (SVG 2, 9.3.1)."""
    text: str = style.own.get("d", "")
    if not (text.startswith("path(") and text.endswith(")")):
        return ""
    return text[5:-1].strip().strip("\"'")


def _path(data: str) -> Shape:
    if data.strip() == "none":
        return Shape(())
    commands, fault = pathdata.commands(data)
    chains = tuple(Pen().follow(commands))
    return Shape(chains, "" if fault is None else _said(data, fault, "its path data"))


def _said(data: str, fault: pathdata.Fault, what: str) -> str:
    found = data[fault.at : fault.at + 20].strip()
    found = "".join(c if c.isprintable() else " " for c in found)
    where = f"at character {fault.at + 1} ('{found}')" if found else "at its end"
    return f"{what} breaks off {where}, where {fault.expected} should stand; it was read up to there"


def _points(data: str, closed: bool) -> Shape:
    numbers, fault = pathdata.points(data)
    said = "" if fault is None else _said(data, fault, "its list of points")
    if len(numbers) < 4:
        return Shape((), said)
    pen = Pen()
    commands = [("M", numbers), ("Z", [])] if closed else [("M", numbers)]
    return Shape(tuple(pen.follow(commands)), said)


# Which side of the viewport a percentage is of: its width, its height or its diagonal.
_SIDE = {
    **dict.fromkeys(("x", "x1", "x2", "cx", "rx", "width"), 0),
    **dict.fromkeys(("y", "y1", "y2", "cy", "ry", "height"), 1),
    "r": 2,
}


class _Figures:
    """The lengths of a basic shape, from CSS or attribute."""

    def __init__(self, attributes: Attributes, style: Style, viewport: tuple[float, float]) -> None:
        self.attributes = attributes
        self.css: Attributes = style.own
        self.font_size = style.font_size
        width, height = viewport
        self.sides = (width, height, math.sqrt((width * width + height * height) / 2))  # SVG 1.1, 7.10

    def get(self, name: str) -> float | None:
        text = self.css.get(name) or self.attributes.get(name)
        if not text:
            return None
        found = length(text, of=self.sides[_SIDE[name]], font_size=self.font_size)
        if found is None and text.strip() not in ("", "auto"):
            raise _Broken(f"its {name} is no length ('{text[:20]}')")
        return found

    def at(self, name: str) -> float:
        return self.get(name) or 0.0

    def size(self, name: str) -> float:
        found = self.at(name)
        if found < 0:
            raise _Broken(f"its {name} is negative")
        return found


def _line(figures: _Figures) -> tuple[Chain, ...]:
    ends = [figures.at("x1"), figures.at("y1"), figures.at("x2"), figures.at("y2")]
    return tuple(Pen().follow([("M", ends)]))


def _circle(figures: _Figures) -> tuple[Chain, ...]:
    r = figures.size("r")
    return _oval(figures.at("cx"), figures.at("cy"), r, r)


def _ellipse(figures: _Figures) -> tuple[Chain, ...]:
    rx, ry = figures.get("rx"), figures.get("ry")
    rx, ry = (ry if rx is None else rx), (rx if ry is None else ry)  # one of them alone makes a circle: SVG 2, 10.4
    if (rx or 0) < 0 or (ry or 0) < 0:
        raise _Broken("its radius is negative")
    return _oval(figures.at("cx"), figures.at("cy"), rx or 0.0, ry or 0.0)


def _oval(cx: float, cy: float, rx: float, ry: float) -> tuple[Chain, ...]:
    if rx == 0 or ry == 0:
        return ()
    return (Chain(_CIRCLE * (rx, ry) + (cx, cy), True),)


def _rect(figures: _Figures) -> tuple[Chain, ...]:
    x, y, w, h = figures.at("x"), figures.at("y"), figures.size("width"), figures.size("height")
    if w == 0 or h == 0:
        return ()
    rx, ry = figures.get("rx"), figures.get("ry")
    rx, ry = (ry if rx is None else rx) or 0.0, (rx if ry is None else ry) or 0.0
    rx, ry = min(max(rx, 0.0), w / 2), min(max(ry, 0.0), h / 2)  # SVG 1.1, 9.2
    if rx == 0 or ry == 0:
        return (Chain(_SQUARE * (w, h) + (x, y), True),)
    return (_rounded(x, y, w, h, rx, ry),)


def _rounded(x: float, y: float, w: float, h: float, rx: float, ry: float) -> Chain:
    """Clockwise from the left end of the top run, as SVG 1.1, 9.2 draws it; corners are quarters of an ellipse."""
    flat: list[float] = []
    at = (x + rx, y)
    corners = ((x + w - rx, y + ry, 6), (x + w - rx, y + h - ry, 0), (x + rx, y + h - ry, 2), (x + rx, y + ry, 4))
    for cx, cy, first in corners:
        quarter = _CIRCLE[first : first + 2] * (rx, ry) + (cx, cy)
        bx, by = (float(v) for v in quarter[0, 0])
        if math.hypot(bx - at[0], by - at[1]) > 1e-12 * (w + h):
            ax, ay = at
            flat += (ax, ay, (2 * ax + bx) / 3, (2 * ay + by) / 3, (ax + 2 * bx) / 3, (ay + 2 * by) / 3, bx, by)
        flat += quarter.ravel().tolist()
        at = (flat[-2], flat[-1])
    flat[-2:] = [x + rx, y]
    return chain(flat, True)


_BASIC = {"line": _line, "circle": _circle, "ellipse": _ellipse, "rect": _rect}
