"""The graph of touching, fastened bars: what hangs on the frame, and what floats."""

from __future__ import annotations

from collections import Counter

from lint.panel.panel import Panel
from lint.panel.parts import FRAME, Bar
from lint.result import Place, Sign
from lint.rules._finding import Figure, Finding
from lint.rules._places import all_bars, named, source


def islands(panel: Panel, figure: Figure) -> list[Finding]:
    """A finding for each group of bars that no fastened contact leads to from the frame.

    An island with a scroll in it must be mended; infill bars alone that touch something are left to the note on
    unfastened contacts, those that touch nothing are looked at.
    """
    joined = _links(panel)
    reached = _reached(FRAME, joined)
    touching = {name for contact in panel.contacts for name in contact.bars}
    scrolls = {scroll.bar.id for scroll in panel.scrolls}
    bars = {bar.id: bar for bar in all_bars(panel)}
    left, found = [name for name in bars if name not in reached], []
    while left:
        group = _reached(left[0], joined)
        names = [name for name in left if name in group]
        left = [name for name in left if name not in group]
        if scrolls & group or not touching & group:
            found.append(_island(names, bars, bool(scrolls & group), figure))
    return found


def _links(panel: Panel) -> dict[str, set[str]]:
    """Who is fastened to whom. A collar over a gap counts: the gap is named by its own rule, and once is enough."""
    joined: dict[str, set[str]] = {}
    held: list[tuple[str, ...]] = [contact.bars for contact in panel.contacts if contact.fasteners]
    held += [f.holds for f in panel.fasteners if f.kind == "collar" and len(f.holds) > 1]
    for names in held:
        for name in names:
            joined.setdefault(name, set()).update(names)
    return joined


def _reached(start: str, joined: dict[str, set[str]]) -> set[str]:
    reached, ahead = {start}, [start]
    while ahead:
        new = joined.get(ahead.pop(), set()) - reached
        reached |= new
        ahead += new
    return reached


def _island(names: list[str], bars: dict[str, Bar], with_scroll: bool, figure: Figure) -> Finding:
    bar = bars[names[0]]
    x, y = bar.line.at(bar.line.length / 2)
    hold = "hang" if len(names) > 1 else "hangs"
    note = f"{named(names)} {hold} on nothing that is fastened to the frame"
    sign = Sign.MEND if with_scroll else Sign.LOOK
    place = Place(x=float(x), y=float(y), note=note, sign=sign, source=source(bar.origin))
    return Finding(place=place, figure=figure, remedy=f"Fasten {names[0]} to the frame, or to a bar that is.")


def places_of(panel: Panel) -> tuple[Place, ...]:
    """A fact for each scroll that is held at one place only: it can turn about it."""
    held = Counter(name for contact in panel.contacts if contact.fasteners for name in contact.bars)
    return tuple(
        Place(
            x=float(x),
            y=float(y),
            note=f"{bar.id} is held at one place only",
            sign=Sign.FACT,
            source=source(bar.origin),
        )
        for bar in (scroll.bar for scroll in panel.scrolls)
        if held[bar.id] == 1
        for x, y in [bar.line.at(bar.line.length / 2)]
    )
