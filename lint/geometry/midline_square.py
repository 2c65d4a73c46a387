"""Chords across a bar turned square to its centreline."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import dot
from lint.geometry.medial_web import Ring
from lint.geometry.midline_rows import EDGE_TURNS, Rows, from_row, run_on

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

# A side whose run along the bar is under this share of its length (cosine of 53 degrees) is no side but an end. At a
# mitred corner it is 0.71.
STEEPEST = 0.6

# Where one side runs along the bar and the other so much less (cosines), the other is the cut of an end sawn askew.
ASKEW = 0.2


def headings(rows: Rows, width: float) -> Floats:
    """Unit tangents of the centreline at each row, over half a width of it, and more where it
    is wider (where the sides spread, a heading out by a little moves the middle by more): (n, 2)."""
    along = rows.along
    whole = float(along[-1])
    own = along[: len(rows.middle)]
    run = np.concatenate([rows.middle, rows.middle[:1]]) if rows.closed else rows.middle
    reach = np.minimum(np.maximum(width / 4, rows.widths / 3), whole / 4)

    def at(s: Floats) -> Floats:
        s = np.mod(s, whole) if rows.closed else np.clip(s, 0.0, whole)
        return np.column_stack([np.interp(s, along, run[:, axis]) for axis in (0, 1)])

    back = reach if rows.closed else np.minimum(reach, np.maximum(own, whole * 1e-6))
    fore = reach if rows.closed else np.minimum(reach, np.maximum(whole - own, whole * 1e-6))
    even = np.minimum(back, fore) if not rows.closed else reach
    lopsided = even < reach / 2
    back, fore = np.where(lopsided, back, even), np.where(lopsided, fore, even)
    way = at(own + fore) - at(own - back)
    return way / np.maximum(np.hypot(way[:, 0], way[:, 1]), 1e-300)[:, None]


def squared(rows: Rows, width: float, *, rounds: int = 1, ends_stay: bool = False) -> Rows:
    """The rows with each chord turned square to the centreline and its middle moved onto the chord's.

    A chord that cannot be squared within a bar's width (the sides step outwards there) is laid between its
    neighbours, and dropped at an end; rows at a corner stay, with `ends_stay` so do the first and the last.
    """
    for _ in range(rounds):
        heading = headings(rows, width)
        left, left_slope = _foot(rows.left_ring, rows.left, rows.middle, heading, width)
        right, right_slope = _foot(rows.right_ring, rows.right, rows.middle, heading, width)
        one, other = rows.left_ring.at(left), rows.right_ring.at(right)
        middle = (one + other) / 2
        moved = np.hypot(*(middle - rows.middle).T)
        sound = (np.abs(left_slope - right_slope) < ASKEW) & _apart(one, other, heading)
        sound &= moved < np.maximum(width, rows.widths) / 6.5
        kept = rows.corner.copy()
        if ends_stay and not rows.closed:
            kept[[0, -1]] = True
        sound &= ~kept
        rows = replace(
            rows,
            middle=np.where(sound[:, None], middle, rows.middle),
            left=np.where(sound, left, rows.left),
            right=np.where(sound, right, rows.right),
        )
        rows = _bridged(rows, sound | kept | _round_a_bend(sound | kept, rows.middle))
    return rows


def _round_a_bend(sound: Flags, middle: Floats) -> Flags:
    """Rows that are not sound, but lie where the bar bends: a line laid between their neighbours would cut it off.
    The bend is that between the chords over the three sound rows before and after."""
    firm = np.flatnonzero(sound)
    if len(firm) < 4:
        return ~sound
    after = np.searchsorted(firm, np.arange(len(sound)))
    last = len(firm) - 1
    before, after = np.clip(after - 1, 2, last), np.clip(after, 0, last - 2)
    one = middle[firm[before]] - middle[firm[before - 2]]
    other = middle[firm[after + 2]] - middle[firm[after]]
    cross = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]
    turn = np.abs(np.degrees(np.arctan2(cross, dot(one, other))))
    bends: Flags = (turn > EDGE_TURNS) & ~sound
    return bends


def _bridged(rows: Rows, sound: Flags) -> Rows:
    """Rows that are not sound laid evenly between those that are; at an open end they are dropped."""
    firm = np.flatnonzero(sound)
    if len(firm) < 4 or len(firm) == len(sound):
        return rows
    own = np.arange(len(sound)) if rows.closed else np.arange(firm[0], firm[-1] + 1)
    if rows.closed:
        rows, firm = from_row(rows, int(firm[0])), np.append(firm - firm[0], len(sound))
    along = rows.along
    middle, left, right = run_on(rows)
    return replace(
        rows,
        middle=np.column_stack([np.interp(along[own], along[firm], middle[firm, axis]) for axis in (0, 1)]),
        left=np.interp(along[own], along[firm], left[firm]),
        right=np.interp(along[own], along[firm], right[firm]),
        corner=rows.corner[own],
    )


def _apart(one: Floats, other: Floats, heading: Floats) -> Flags:
    """Whether the two feet lie on either hand of the centreline, all on the same."""
    across = one - other
    hand = heading[:, 0] * across[:, 1] - heading[:, 1] * across[:, 0]
    same: Flags = np.sign(hand) == np.sign(hand.sum())
    return same


def _foot(ring: Ring, start: Floats, middle: Floats, heading: Floats, width: float) -> tuple[Floats, Floats]:
    """Where the line through `middle` square to `heading` meets the ring near `start`: arc lengths, and how the ring
    runs there (cosine against the heading; NaN where no foot is found). Steps of a quarter width at most."""
    s, small = start, width / 50
    onward = 1.0 if start[-1] >= start[0] else -1.0
    for _ in range(3):
        here, there = np.split(ring.at(np.concatenate([s - small, s + small])), 2)
        off = dot((here + there) / 2 - middle, heading)
        slope = dot(there - here, heading) / (2 * small)
        across = slope * onward < STEEPEST
        slope = np.where(across, STEEPEST * onward, slope)
        step = np.clip(off / slope, -width / 4, width / 4)
        s = s - step
    strayed = across | (np.abs(s - start) > 1.5 * width) | (np.abs(step) > 0.01 * width)
    return s, np.where(strayed, np.nan, np.abs(slope))
