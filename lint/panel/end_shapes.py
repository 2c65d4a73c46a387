"""Scroll ends as their outlines show them, held against their names."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lint.geometry.end_outline import end_outline, plain, unlike
from lint.panel.parts import DrawnAs, End, Scroll
from lint.values import dataclass

Floats = NDArray[np.float64]

# Ends of one name whose outlines are farther apart than this, in bar widths, look like different ends: a square and
# a round end are 0.21 apart. By hand, one end drawn twice differs by less (common practice, no source).
DIFFERENT = 0.2

# Ends whose outlines are no farther apart than this look the same.
SAME = 0.05

# An end no farther than this from a plain cut is one: in an eye as tight as the bar is wide, unrolling leaves 0.07.
PLAIN = 0.1


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ShownEnd:
    """A named end with its edge as it lies (mm) and unrolled (`lint.geometry.end_outline`, bar widths), and whether
    any end is drawn there."""

    scroll: Scroll
    end: End
    edge: Floats
    outline: Floats
    plain: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Doubtful:
    """Two ends whose outlines say other than their names: `apart` is how far the outlines differ, in bar widths;
    `alike` is true where one outline carries two names, false where one name carries two outlines."""

    one: ShownEnd
    other: ShownEnd
    apart: float
    alike: bool


def shown_ends(scrolls: Sequence[Scroll]) -> tuple[ShownEnd, ...]:
    """The named ends of the scrolls that are drawn as outlines."""
    shown = []
    for scroll in scrolls:
        bar = scroll.bar
        if bar.drawn_as is not DrawnAs.OUTLINE or bar.unread or not bar.width or not bar.metal or bar.line.closed:
            continue
        for end, last in zip(scroll.ends, (False, True), strict=True):
            outline = end_outline(bar.metal, bar.line, bar.width, last=last) if end.name else None
            if outline is not None:
                bare = plain(outline.unrolled, PLAIN)
                found = ShownEnd(scroll=scroll, end=end, edge=outline.edge, outline=outline.unrolled, plain=bare)
                shown.append(found)
    return tuple(shown)


def doubtful_ends(scrolls: Sequence[Scroll]) -> tuple[Doubtful, ...]:
    """Ends that share a name and not an outline, or an outline and not a name.

    Each end is held against the first of its name, and of each name the first against those of the names before. Where
    no end is drawn (the bar is cut square or has a stroke's round cap), only the name tells, and two such ends of
    different names are in no doubt.
    """
    firsts: dict[str, ShownEnd] = {}
    found = []
    for shown in shown_ends(scrolls):
        first = firsts.setdefault(str(shown.end.name), shown)
        apart = unlike(first.outline, shown.outline) if first is not shown else 0.0
        if apart > DIFFERENT:
            found.append(Doubtful(one=first, other=shown, apart=apart, alike=False))
    names = [first for first in firsts.values() if not first.plain]
    for k, first in enumerate(names):
        like = ((earlier, unlike(earlier.outline, first.outline)) for earlier in names[:k])
        one = next(((earlier, apart) for earlier, apart in like if apart <= SAME), None)
        found += [Doubtful(one=one[0], other=first, apart=one[1], alike=True)] if one else []
    return tuple(found)
