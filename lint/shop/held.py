"""What lies within a fastener: each pass of each bar through it, with its section."""

from __future__ import annotations

import numpy as np

from lint.geometry.area import Area
from lint.geometry.curve import Floats
from lint.panel.panel import Panel
from lint.panel.parts import FRAME, Bar, Fastener
from lint.sheet.sheet import Section, Sheet
from lint.shop.bars import shown_name
from lint.shop.sections import section_of
from lint.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Held:
    """One bar within a fastener: how it is shown, its section (the sheet's where the drawing has none), and the
    bar itself."""

    bar: Bar
    name: str
    section: Section


def bars_held(panel: Panel, fastener: Fastener, sheet: Sheet) -> tuple[Held, ...]:
    """The bars that a fastener holds, the frame as the member nearest to it. Bars that are not there are left out."""
    found = [_bar(panel, name, fastener) for name in fastener.holds]
    return tuple(_held(panel, bar, sheet) for bar in found if bar is not None)


def _bar(panel: Panel, name: str, fastener: Fastener) -> Bar | None:
    members = panel.frame.members if panel.frame else ()
    if name == FRAME:
        return min(members, key=lambda bar: bar.line.nearest(fastener.at)[1], default=None)
    scrolls = (scroll.bar for scroll in (*panel.scrolls, *panel.samples))
    return next((bar for bar in (*scrolls, *panel.bars, *members) if bar.id == name), None)


def _held(panel: Panel, bar: Bar, sheet: Sheet) -> Held:
    members = panel.frame.members if panel.frame else ()
    infill = any(bar is one for one in panel.bars)
    framed = any(bar is one for one in members)
    asked = sheet.stock.frame if framed else sheet.stock.bar if infill else sheet.stock.scroll
    section, _ = section_of(bar, asked)
    return Held(bar=bar, name=shown_name(bar), section=section or asked)


def across_order(held: tuple[Held, ...], fastener: Fastener) -> tuple[Held, ...]:
    """The bars in the order in which they lie side by side, one entry for each pass of a bar through the fastener.

    A bar passes as often as its metal within the fastener has parts, slivers (under a fifth of the largest) not
    counted.
    """
    if not held:
        return ()
    nearest, _ = held[0].bar.line.nearest(fastener.at)
    along: Floats = held[0].bar.line.tangent(nearest)
    normal = np.array([-along[1], along[0]])
    placed = [(_middle(part, normal), n) for n, one in enumerate(held) for part in _passes(one, fastener)]
    return tuple(held[n] for _, n in sorted(placed))


def _passes(held: Held, fastener: Fastener) -> tuple[Area | None, ...]:
    if held.bar.metal is None:
        return (None,)
    parts = held.bar.metal.overlap(fastener.area).parts
    largest = max((part.size for part in parts), default=0.0)
    return tuple(part for part in parts if part.size >= largest / 5) or (None,)


def _middle(part: Area | None, normal: Floats) -> float:
    return 0.0 if part is None else float(np.dot(part.inside_point, normal))


def lapped(held: tuple[Held, ...], fastener: Fastener) -> bool:
    """True where the bars lie over one another at the fastener's axis, so that it goes through them from front to
    back; False where they lie side by side and it goes through their seen widths."""
    over = [one for one in held if one.bar.metal is not None and one.bar.metal.holds(fastener.at)]
    return len(over) >= 2 and _shared(over, fastener) > 0.3


def _shared(over: list[Held], fastener: Fastener) -> float:
    """How deep two bars share the plane within the fastener, as a part of the narrower one's width."""
    areas = [one.bar.metal.overlap(fastener.area) for one in over[:2] if one.bar.metal is not None]
    shared = areas[0].overlap(areas[1])
    least = min(area.size for area in areas)
    return shared.size / least if least > 0 else 0.0
