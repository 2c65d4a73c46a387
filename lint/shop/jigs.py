"""The formers: one for each family of scrolls, which scrolls it makes, and which of them turned over.

A former follows the inside face of the scroll: centreline less half the bar. The mirror hand comes from the
same former turned over (common practice, no source).
"""

from __future__ import annotations

import numpy as np

from lint.geometry.bending import turning
from lint.geometry.curve import Curve
from lint.panel.panel import Panel
from lint.panel.parts import Scroll
from lint.shop.bars import shown_name
from lint.shop.entries import Jig
from lint.shown import shown


def jigs_of(panel: Panel, alike: float) -> tuple[Jig, ...]:
    """One jig for each family. Curls that cover one another within `alike` mm come from one half of it."""
    return tuple(_jig(number, family, alike) for number, family in families_of(panel))


def families_of(panel: Panel) -> list[tuple[int, tuple[Scroll, ...]]]:
    """The families in order of number, samples with their family; scrolls of family 0 are left out."""
    scrolls = (*panel.scrolls, *panel.samples)
    numbers = sorted({scroll.family for scroll in scrolls if scroll.family})
    return [(number, tuple(s for s in scrolls if s.family == number)) for number in numbers]


def without_a_former(panel: Panel) -> tuple[str, ...]:
    """A sentence on the scrolls that belong to no family, or none."""
    names = [shown(shown_name(s.bar), 40) for s in (*panel.scrolls, *panel.samples) if not s.family]
    if not names:
        return ()
    return (f"No former and no pattern for {', '.join(names)}: not read as a scroll that can be compared.",)


def _jig(number: int, family: tuple[Scroll, ...], alike: float) -> Jig:
    first = family[0]
    own = first.symmetry is not None and first.symmetry <= alike
    either = first.kind == "C" and own
    hands = [0 if either else hand(scroll) for scroll in family]
    same = tuple(shown_name(s.bar) for s, h in zip(family, hands, strict=True) if h == hands[0])
    other = tuple(shown_name(s.bar) for s, h in zip(family, hands, strict=True) if h != hands[0])
    return Jig(
        family=number,
        shape=first.kind,
        as_it_stands=same,
        turned_over=other,
        either=either,
        half_is_enough=own,
        words=_words(first, own, either, bool(other)),
    )


def _words(first: Scroll, own: bool, either: bool, other: bool) -> str:
    hands = (
        "Both hands are alike: every scroll lies on the pattern as it is."
        if either
        else "Turn the former over for the other hand."
        if other
        else "One hand only: the former is never turned over."
    )
    if not own:
        return f"{hands} The two curls differ, so each needs its own former or its own half of one."
    turned = "turned over" if first.kind == "C" else "as it stands, the bar turned end for end"
    return f"{hands} Both curls are alike: a former of one curl is enough; make the second curl on it {turned}."


def hand(scroll: Scroll) -> int:
    """+1 or -1: the two hands of one shape, whichever way its path was drawn.

    An S is told by the turn of its first curl, which is the same from either end. A C is told by the way it
    turns when it is followed from its longer half (of turning) to its shorter.
    """
    lobes = turning(scroll.bar.line).lobes
    if len(lobes) > 1:
        return 1 if lobes[0][2] > 0 else -1
    line = scroll.bar.line
    way = 1 if sum(turned for _, _, turned in lobes) > 0 else -1
    return way if _tighter_first(line) else -way


def _tighter_first(line: Curve) -> bool:
    """True where the half of the bar that comes first on the path turns more than the other half."""
    steps = np.diff(line.resampled(max(line.length / 400, 0.1)).points, axis=0)
    turned = np.abs(np.unwrap(np.arctan2(steps[:, 1], steps[:, 0])) - np.arctan2(steps[0, 1], steps[0, 0]))
    middle = turned[len(turned) // 2]
    return bool(middle >= turned[-1] - middle)
