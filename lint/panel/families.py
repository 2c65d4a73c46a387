"""Scrolls that cover one another: one family, one jig."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve
from lint.geometry.overlay import overlay, own_symmetry, signature
from lint.panel.copies import copies
from lint.panel.parts import Bar, DrawnAs, Scroll
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
    groups = dict(zip(originals, _grouped([curves[k] for k in originals], sheet.scroll_match.overlay), strict=True))
    numbers = {group: n for n, group in enumerate(dict.fromkeys(groups[k] for k in copied), 1)}
    symmetry = {k: _symmetry(everyone[able[k]], curves[k]) for k in originals}
    for k, original in zip(able, copied, strict=True):
        copy_of = everyone[able[original]].bar.id if able[original] != k else ""
        family = numbers[groups[original]]
        everyone[k] = replace(everyone[k], family=family, symmetry=symmetry[original], copy_of=copy_of)
    return tuple(everyone[: len(scrolls)]), tuple(everyone[len(scrolls) :])


def comparable(scroll: Scroll) -> bool:
    """Whether the scroll has a centreline with two ends."""
    return not scroll.bar.unread and not scroll.bar.line.closed


def compared_curve(bar: Bar, sheet: Sheet) -> Curve:
    """The part of a bar's centreline that is laid over another: the whole of a centreline, an outline without its
    ends, which are meant to differ."""
    if bar.drawn_as is not DrawnAs.OUTLINE or bar.width is None:
        return bar.line
    left_out = min(sheet.scroll_match.ends_left_out * bar.width, 0.25 * bar.line.length)
    return bar.line.piece(left_out, bar.line.length - left_out)


def _grouped(curves: Sequence[Curve], within: float) -> list[int]:
    """For each curve the number of its group: the lowest index that a chain of covering curves leads to."""
    if not curves:
        return []
    marks = np.array([signature(curve) for curve in curves])
    leader = list(range(len(curves)))
    groups: dict[int, list[int]] = {}
    for k in np.argsort(marks[:, 0], kind="stable").tolist():
        matched = [g for g, members in groups.items() if _joins(k, members, marks, curves, within)]
        merged = [k, *(m for g in matched for m in groups.pop(g))]
        groups[min(merged)] = merged
    for first, members in groups.items():
        for member in members:
            leader[member] = first
    return leader


def _joins(k: int, members: Sequence[int], marks: Floats, curves: Sequence[Curve], within: float) -> bool:
    """Whether curve k covers a member of the group; the likeliest is tried first."""
    off = np.abs(marks[list(members)] - marks[k]).max(axis=1)
    order = np.argsort(off, kind="stable")
    likely = order[: int(np.searchsorted(off[order], SPREAD * within, side="right"))]
    return any(covers(curves[k], curves[members[i]], within) for i in likely)


def covers(moving: Curve, fixed: Curve, within: float) -> bool:
    """Whether one curve laid on the other leaves no gap over `within` mm."""
    return overlay(moving, fixed, enough=max(within, 0.1)).distance <= within


def _symmetry(scroll: Scroll, line: Curve) -> float | None:
    return own_symmetry(line, scroll.kind == "S") if scroll.kind in ("C", "S") else None
