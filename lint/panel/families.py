"""Scrolls that cover one another: one family, one jig."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from lint.geometry.bound import at_most
from lint.geometry.curve import Curve
from lint.geometry.overlay import signature
from lint.panel.copies import copies
from lint.panel.laying import compared_curve, facing, lay_on, symmetry
from lint.panel.parts import Bar, Scroll
from lint.sheet.sheet import Sheet

Floats = NDArray[np.float64]
Sorted = tuple[tuple[Scroll, ...], tuple[Scroll, ...]]

# Curves within an overlay distance d differ by at most this many d in each figure of their signatures (see there).
SPREAD = 1.0


def sort_into_families(scrolls: Sequence[Scroll], samples: Sequence[Scroll], sheet: Sheet, known_scale: bool) -> Sorted:
    """(scrolls, samples) with their family, numbered from 1 by first appearance, and their own symmetry in mm.

    Two scrolls are of one family where each covers the other within the sheet's overlay distance, or a chain of
    scrolls between them does: the order of drawing does not matter. Family 0: an outline that is no bar, a
    closed path, or a drawing without a scale.
    """
    everyone = [*scrolls, *samples]
    able = [k for k, scroll in enumerate(everyone) if known_scale and comparable(scroll)]
    curves = [compared_curve(everyone[k].bar, sheet) for k in able]
    copied = copies(curves)
    originals = sorted(set(copied))
    bars = [everyone[able[k]].bar for k in originals]
    groups = dict(zip(originals, _grouped(bars, [curves[k] for k in originals], sheet), strict=True))
    numbers = {group: n for n, group in enumerate(dict.fromkeys(groups[k] for k in copied), 1)}
    symmetries = {k: _symmetry(everyone[able[k]], sheet) for k in originals}
    for k, original in zip(able, copied, strict=True):
        copy_of = everyone[able[original]].bar.id if able[original] != k else ""
        family = numbers[groups[original]]
        everyone[k] = replace(everyone[k], family=family, symmetry=symmetries[original], copy_of=copy_of)
    return tuple(everyone[: len(scrolls)]), tuple(everyone[len(scrolls) :])


def comparable(scroll: Scroll) -> bool:
    """Whether the scroll has a centreline with two ends."""
    return not scroll.bar.unread and not scroll.bar.line.closed


def _grouped(bars: Sequence[Bar], curves: Sequence[Curve], sheet: Sheet) -> list[int]:
    """For each bar (with its compared curve) the number of its group: the lowest index that a chain of covering bars
    leads to."""
    groups = [[k] for k in range(len(bars))]
    if len(bars) > 1:
        marks = np.array([signature(line) for line in curves])
        for k, likely in _likely(marks, SPREAD * sheet.scroll_match.overlay):
            for other in likely:
                if groups[other] is not groups[k] and covers(bars[k], bars[other], sheet):
                    fewer, more = sorted((groups[k], groups[other]), key=len)
                    more += fewer
                    for member in fewer:
                        groups[member] = more
    first: dict[int, int] = {}
    return [first.setdefault(id(group), k) for k, group in enumerate(groups)]


def _likely(marks: Floats, spread: float) -> Iterator[tuple[int, list[int]]]:
    """Each bar with those among the bars before it, in the order of their first figure, that it may cover by all
    their figures; the likeliest first."""
    order = np.argsort(marks[:, 0], kind="stable")
    first = np.searchsorted(marks[order, 0], marks[order, 0] - spread)
    for place, k in enumerate(order.tolist()):
        before = order[first[place] : place]
        off = np.abs(marks[before] - marks[k]).max(axis=1)
        nearest = np.argsort(off, kind="stable")
        yield k, before[nearest[: int(np.count_nonzero(off <= spread))]].tolist()


def covers(moving: Bar, fixed: Bar, sheet: Sheet) -> bool:
    """Whether one bar laid on the other leaves no gap over the sheet's overlay distance."""
    within = sheet.scroll_match.overlay
    if at_most(*facing(moving, fixed, sheet)) <= within:
        return True
    return lay_on(moving, fixed, sheet, enough=max(within, 0.1)).overlay.distance <= within


def _symmetry(scroll: Scroll, sheet: Sheet) -> float | None:
    return symmetry(scroll.bar, sheet, half_turn=scroll.kind == "S") if scroll.kind in ("C", "S") else None
