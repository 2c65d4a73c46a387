"""The two ends of a bar: where the medial axis forks into corners, the centreline goes straight on to the end."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from lint.geometry.medial_way import END_REACH, Way
from lint.geometry.midline_rows import CHORDS_A_WIDTH, Rows

Floats = NDArray[np.float64]

# A chord belongs to the end's own shape where half of it is over this share of its middle's distance from the tip: 0.71
# in a square corner, 1 in a round cap and a ball, under 0.3 in a point of 30 degrees. Smaller would cut more of the
# axis away than need be, larger would leave the fork in.
END_SHAPE = 0.6

# An end over this many times as wide as the bar one and a half widths before it is a ball or a flare.
SWOLLEN = 1.3

# It begins to be one where the bar is over this many times as wide as one and a half widths before.
SWELLS = 1.15

# The tightest bend that a bar's end is drawn on with, as bar width over radius: the inside of the eye then is half a
# width. A tighter one is a measuring error of a short stretch.
TIGHTEST = 1.0


def trimmed(points: Floats, way: Way) -> Way | None:
    """The way without the chords that belong to its ends' shapes; None where nothing would be left."""
    if way.closed:
        return way
    one, other = points[way.left], points[way.right]
    middles, halves = (one + other) / 2, np.hypot(*(one - other).T) / 2
    first = _end_chords(middles, halves, points[way.tips[0]])
    last = len(halves) - _end_chords(middles[::-1], halves[::-1], points[way.tips[1]])
    if last - first < 3:
        return None
    return replace(way, left=way.left[first:last], right=way.right[first:last])


def _end_chords(middles: Floats, halves: Floats, tip: Floats) -> int:
    """How many chords from the first on belong to the shape of the end at `tip`."""
    away = np.hypot(*(middles - tip).T)
    along = away[0] + np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(middles, axis=0).T))])
    shaped = (halves > END_SHAPE * away) & (along < 2.5 * halves)
    return int(np.flatnonzero(shaped)[-1]) + 1 if shaped.any() else 0


def ended(rows: Rows, width: float) -> Rows:
    """Open rows, drawn out at both ends to where their centreline, bending on as it bent, meets the edge."""
    if rows.closed:
        return rows
    return _turned_about(_drawn_out(_turned_about(_drawn_out(rows, width)), width))


def necked(rows: Rows, width: float) -> Rows:
    """Open rows without those within a ball or a flare at either end: there the chords lie askew, as the way happened
    to run, and the centreline goes straight on from the neck."""
    if rows.closed:
        return rows
    last, first = _neck(rows, width), len(rows.middle) - 1 - _neck(_turned_about(rows), width)
    return rows.part(first, last) if last - first > 3 else rows


def _neck(rows: Rows, width: float) -> int:
    """The last row half a width before a ball or flare that the rows end in; the last of all where they end in none."""
    along, widths = rows.along, rows.widths
    before = np.interp(along - 1.5 * width, along, widths)
    swelling = np.flatnonzero((widths > SWELLS * before) & (along > along[-1] - END_REACH * width))
    if not len(swelling) or along[-1] - along[swelling[0]] > 1.5 * widths[swelling[0] :].max():
        return len(widths) - 1
    return max(int(np.searchsorted(along, along[swelling[0]] - width / 2)) - 1, 0)


def cut_back(rows: Rows, by: float) -> Rows:
    """Open rows without `by` mm at each end."""
    along = rows.along
    inside = np.flatnonzero((along >= by) & (along <= along[-1] - by))
    return rows if len(inside) < 4 else rows.part(int(inside[0]), int(inside[-1]))


def _turned_about(rows: Rows) -> Rows:
    return replace(
        rows,
        left_ring=rows.right_ring,
        right_ring=rows.left_ring,
        middle=rows.middle[::-1],
        left=rows.right[::-1],
        right=rows.left[::-1],
        corner=rows.corner[::-1],
    )


def _drawn_out(rows: Rows, width: float) -> Rows:
    """The rows with more at their last end, the last of all on the edge."""
    heading, bend = _leaving(rows, width)
    ring, start, stretch = rows.left_ring, float(rows.left[-1]), _round_the_end(rows)
    s = start + stretch * np.linspace(0.0, 1.0, max(65, int(abs(stretch) / width * 24)))
    reach, off = _beside_arc(ring.at(s), rows.middle[-1], heading, bend)
    crossing = _first_crossing(reach, off, width)
    if crossing is None:
        return rows
    place, out = crossing
    hit = start + stretch * place / (len(s) - 1)
    steps = max(int(np.ceil(out / width * CHORDS_A_WIDTH)), 1)
    share = np.arange(1, steps + 1) / steps
    more = _on_arc(rows.middle[-1], heading, bend, share * out)
    more[-1] = ring.at(np.array([hit]))[0]
    onward, right = float(np.sign(stretch)), float(rows.right[-1])
    beyond = abs(start + stretch - hit)  # from the end's middle on to the right foot, on the same ring
    return replace(
        rows,
        middle=np.concatenate([rows.middle, more]),
        left=np.concatenate([rows.left, start + onward * np.minimum(out * share, abs(hit - start))]),
        right=np.concatenate([rows.right, right - onward * np.minimum(out * share, beyond)]),
        corner=np.concatenate([rows.corner, np.zeros(len(share), dtype=bool)]),
    )


def _round_the_end(rows: Rows) -> float:
    """Signed length of edge from the left foot of the last row round the end to its right foot, mm."""
    onward = 1.0 if rows.left[-1] >= rows.left[0] else -1.0
    whole = rows.left_ring.length
    return onward * float(np.mod(onward * (rows.right[-1] - rows.left[-1]), whole))


def _leaving(rows: Rows, width: float) -> tuple[Floats, float]:
    """Unit tangent at the last row and the curvature (1/mm, signed) with which the centreline gets there.

    An end that swells (a ball, a fishtail) is straight: its axis has no bend that could be measured.
    """
    along = rows.along
    whole = float(along[-1])
    last = float(rows.widths[-1])
    before = float(np.interp(whole - 1.5 * last, along, rows.widths))
    swollen = last > SWOLLEN * before
    reach = min(max(width, last if swollen else 0.0), whole / 2.5)

    def at(back: float) -> Floats:
        return np.array([np.interp(whole - back, along, rows.middle[:, axis]) for axis in (0, 1)])

    near, mid, far = at(0.0), at(reach / 2), at(reach)
    late, early = near - mid, mid - far
    turn = float(np.arctan2(early[0] * late[1] - early[1] * late[0], (early * late).sum()))
    bend = 0.0 if swollen else float(np.clip(turn / (reach / 2), -TIGHTEST / width, TIGHTEST / width))
    angle = float(np.arctan2(late[1], late[0])) + bend * reach / 4
    return np.array([np.cos(angle), np.sin(angle)]), bend


def _on_arc(start: Floats, heading: Floats, bend: float, u: Floats) -> Floats:
    half = bend * u / 2
    chord = u * np.sinc(half / np.pi)
    normal = np.array([-heading[1], heading[0]])
    on: Floats = start + chord[:, None] * (np.cos(half)[:, None] * heading + np.sin(half)[:, None] * normal)
    return on


def _beside_arc(points: Floats, start: Floats, heading: Floats, bend: float) -> tuple[Floats, Floats]:
    """Points by their place along an arc and their distance beside it (positive to its left hand, y down), mm."""
    normal = np.array([-heading[1], heading[0]])
    if abs(bend) < 1e-6:
        return (points - start) @ heading, (points - start) @ normal
    from_centre = points - (start + normal / bend)
    sign = np.sign(bend)
    off = (1 / abs(bend) - np.hypot(*from_centre.T)) * sign
    return np.arctan2(from_centre @ heading, -sign * (from_centre @ normal)) / abs(bend), off


def _first_crossing(reach: Floats, off: Floats, width: float) -> tuple[float, float] | None:
    """Where the edge first crosses the drawn-out centreline: (place in the samples, mm along the centreline)."""
    at = np.flatnonzero(np.sign(off[1:]) * np.sign(off[:-1]) <= 0)
    if len(at) == 0:
        return None
    share = np.abs(off[at]) / np.maximum(np.abs(off[at]) + np.abs(off[at + 1]), 1e-300)
    along = reach[at] + share * (reach[at + 1] - reach[at])
    ahead = along > -1e-9 * width
    if not ahead.any():
        return None
    first = int(np.where(ahead, along, np.inf).argmin())
    return float(at[first] + share[first]), float(along[first])
