"""What stands out of the frame: its openings have no bounds there and are not judged."""

from __future__ import annotations

from lint.lengths import say
from lint.panel.panel import Panel
from lint.panel.parts import Bar
from lint.result import Place, Sign
from lint.rules._places import all_bars, source


def outside_frame(panel: Panel) -> tuple[Place, ...]:
    """A place for each scroll or bar whose metal reaches past the frame's outer edges."""
    frame = panel.frame
    if frame is None or frame.metal is None:
        return ()
    left, top, right, bottom = frame.metal.extent
    found = []
    for bar in all_bars(panel):
        if bar.metal is None or bar.metal.empty:
            continue
        x0, y0, x1, y1 = bar.metal.extent
        out = max(left - x0, top - y0, x1 - right, y1 - bottom)
        if out > 0.5:  # mm: less is a line drawn over the edge
            found.append(_place(bar, out))
    return tuple(found)


def _place(bar: Bar, out: float) -> Place:
    x, y = bar.line.at(bar.line.length / 2)
    note = f"{bar.id} stands {say(out)} out of the frame: openings outside the frame are not judged"
    return Place(x=float(x), y=float(y), note=note, sign=Sign.FACT, source=source(bar.origin))
