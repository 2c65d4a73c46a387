"""Bars that lie over one another on purpose, and gaps that a fastener covers."""

from __future__ import annotations

from lint.geometry.area import disc
from lint.panel.panel import Panel
from lint.panel.parts import Closeness, Fastener

# mm: a joint mark or a rivet's axis stands on a lap when it is no farther from the shared metal.
ON_LAP = 3.0
Index = dict[str, list[Fastener]]


def by_bar(panel: Panel) -> Index:
    """The fasteners that hold each bar, by its id."""
    index: Index = {}
    for fastener in panel.fasteners:
        for name in fastener.holds:
            index.setdefault(name, []).append(fastener)
    return index


def _holding_both(close: Closeness, index: Index) -> list[Fastener]:
    first, second = close.bars
    fewer, other = sorted(((len(index.get(a, ())), a, b) for a, b in ((first, second), (second, first))))[0][1:]
    return [] if first == second else [one for one in index.get(fewer, ()) if other in one.holds]


def lapped(close: Closeness, panel: Panel, index: Index) -> str:
    """What holds two bars where one lies over the other ("rivet-3", "a halved joint"), or ""."""
    if close.shared is None or close.bars[0] == close.bars[1]:
        return ""
    for fastener in _holding_both(close, index):
        if fastener.kind != "collar" and close.shared.distance(disc(*fastener.at, 0.1)) <= ON_LAP:
            return fastener.id
    for joint in panel.frame.joints if panel.frame else ():
        if close.shared.distance(disc(*joint.at, 0.1)) <= ON_LAP:
            return f"a {joint.kind} joint"
    return ""


def fastened_there(close: Closeness, index: Index) -> bool:
    """Whether a fastener that holds both bars stands on the gap: its own rule then names the gap."""
    return any(_on(fastener, close) for fastener in _holding_both(close, index))


def _on(fastener: Fastener, close: Closeness) -> bool:
    reach = max(fastener.size) / 2 + 2 * ON_LAP
    return max(abs(fastener.at[0] - close.at[0]), abs(fastener.at[1] - close.at[1])) <= reach
