"""Objects drawn twice on one another: read as one part, and named."""

from __future__ import annotations

from lint.panel.panel import Panel
from lint.panel.parts import Origin
from lint.result import Place, Sign
from lint.rules._finding import Figure, Finding
from lint.rules._places import all_bars, source


def doubles(panel: Panel) -> list[Finding]:
    """One place for each second copy."""
    found = []
    for kept, dropped in panel.doubles:
        at = next((bar.line.at(0.0) for bar in all_bars(panel) if bar.origin == kept), panel.origin)
        note = f"{_called(dropped)} lies exactly on {_called(kept)}: counted once"
        place = Place(x=float(at[0]), y=float(at[1]), note=note, sign=Sign.LOOK, source=source(dropped))
        figure = Figure(measured=float(len(panel.doubles)), required=0.0, unit="count", asked="nothing drawn twice")
        found.append(Finding(place=place, figure=figure, remedy="Delete the second copy."))
    return found


def _called(origin: Origin) -> str:
    return origin.id or f"the object of line {origin.line}"
