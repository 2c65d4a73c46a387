"""Bars that lie over one another on purpose, and gaps that a fastener covers."""

from __future__ import annotations

from lint.geometry.area import disc
from lint.panel.panel import Panel
from lint.panel.parts import Closeness, Fastener

# mm: a joint mark or a rivet's axis stands on a lap when it is no farther from the shared metal.
ON_LAP = 3.0


def lapped(close: Closeness, panel: Panel) -> str:
    """What holds two bars where one lies over the other ("rivet-3", "a halved joint"), or ""."""
    if close.shared is None or close.bars[0] == close.bars[1]:
        return ""
    for fastener in panel.fasteners:
        holds = set(close.bars) <= set(fastener.holds)
        if fastener.kind != "collar" and holds and close.shared.distance(disc(*fastener.at, 0.1)) <= ON_LAP:
            return fastener.id
    for joint in panel.frame.joints if panel.frame else ():
        if close.shared.distance(disc(*joint.at, 0.1)) <= ON_LAP:
            return f"a {joint.kind} joint"
    return ""


def fastened_there(close: Closeness, panel: Panel) -> bool:
    """Whether a fastener that holds both bars stands on the gap: its own rule then names the gap."""
    if close.bars[0] == close.bars[1]:
        return False
    return any(set(close.bars) <= set(f.holds) and _on(f, close) for f in panel.fasteners)


def _on(fastener: Fastener, close: Closeness) -> bool:
    reach = max(fastener.size) / 2 + 2 * ON_LAP
    return max(abs(fastener.at[0] - close.at[0]), abs(fastener.at[1] - close.at[1])) <= reach
