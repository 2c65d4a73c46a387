"""Small pages for tests: markup in, panel out. One page unit is one millimetre unless a test says otherwise."""

from __future__ import annotations

from lint.drawing import read
from lint.panel import build
from lint.panel.panel import Panel
from lint.panel.parts import Frame
from lint.result import Result
from lint.rules import RULES
from lint.sheet import load_default
from lint.sheet.sheet import Sheet

SVG = 'xmlns="http://www.w3.org/2000/svg" xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape"'
MM = 'width="500mm" height="700mm" viewBox="0 0 500 700"'
BAR = 'fill="none" stroke="#000" stroke-width="12"'
SCROLL = 'fill="none" stroke="#000" stroke-width="6"'
HAIR = 'fill="none" stroke="#000" stroke-width="0.2"'
FILL = 'fill="#444"'
SHEET = load_default()


def page(body: str, size: str = MM) -> bytes:
    """A whole drawing with this body."""
    return f"<svg {SVG} {size}>{body}</svg>".encode()


def panel_of(body: str, size: str = MM, *, sheet: Sheet = SHEET, scale: str | None = None) -> Panel:
    """The panel on a page with this body."""
    return build(read(page(body, size)), sheet, scale=scale)


def framed(frame: str, more: str = "", size: str = MM) -> Frame:
    """The frame that lies on the layer frame."""
    found = panel_of(f'<g id="frame">{frame}</g>{more}', size).frame
    assert found is not None
    return found


def judged(panel: Panel, rule_id: str, sheet: Sheet = SHEET) -> Result:
    """What one rule says of a panel."""
    return next(rule for rule in RULES if rule.id == rule_id)(panel, sheet)


def joints(*places: tuple[float, float]) -> str:
    """A layer of joint marks."""
    dots = "".join(f'<circle cx="{x}" cy="{y}" r="3"/>' for x, y in places)
    return f'<g id="joints">{dots}</g>'
