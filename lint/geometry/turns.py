"""Where one curve comes back beside itself: the turns of a scroll that touch, run into each other or come close."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lint.geometry.area import Area
from lint.geometry.band import band
from lint.geometry.chunks import Chunks, Counts, Keep, NearRecords, chunked, near_records
from lint.geometry.curve import Curve
from lint.values import dataclass

Floats = NDArray[np.float64]
Whole = NDArray[np.intp]
Point = tuple[float, float]

# On a circle the arc between two points is 2.12 times their chord at 225 degrees: less than that is one bend,
# whose eye may be narrow; more is a bar that has come back beside itself.
CAME_BACK = 2.2
HALF_ROUND = np.radians(170.0)  # a bar cannot come back beside itself with less turning than this
LEAST = 0.5  # mm: a bar that tapers to nothing does not come back beside itself within its own tip
THINNEST = 0.01  # mm: a bar that tapers to nothing still has a tip to measure to
CHUNK = 16  # points of bar whose neighbours are sought together: only an eye has any
JOINED = 8.0  # mm of bar: records nearer than this along it, or on neighbouring points of it, are one place


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class CameBack:
    """One place where curve `index` lies beside itself, at arc lengths `s` < `t` (mm): clear distance `gap` in mm
    (0 where the turns meet), the nearest points, and the area that both turns cover (None where they are clear)."""

    index: int
    s: float
    t: float
    gap: float
    between: tuple[Point, Point]
    shared: Area | None


@dataclass(frozen=True, slots=True, eq=False)
class _Bars:
    """The bars as one run of points: `owner` and half width of each point, and where each bar starts."""

    lines: Sequence[Curve]
    widths: Sequence[float | Floats]
    chunks: Chunks
    owner: Whole
    half: Floats
    start: Whole


def come_back(lines: Sequence[Curve], widths: Sequence[float | Floats], reach: float) -> tuple[CameBack, ...]:
    """Every place where a bar (centreline and width, mm) has its own metal nearer than `reach` mm beside it.

    A width may be one figure or one for each point of its line. Gaps are measured between the bar's two stretches
    as they are, butt ends included. In order of curve, then along it.
    """
    if not lines:
        return ()
    bars = _as_one_run(lines, widths)
    widest = reach + 2 * float(bars.half.max())
    near = near_records(bars.chunks, widest, _doubling(bars.chunks), _came_back(bars, reach))
    found = (_measured(bars, near, row) for row in _beside(bars, near))
    return tuple(place for place in found if place.gap < reach)


def _as_one_run(lines: Sequence[Curve], widths: Sequence[float | Floats]) -> _Bars:
    counts = [len(line.points) for line in lines]
    owner = np.repeat(np.arange(len(lines)), counts)
    half = [np.broadcast_to(np.asarray(width) / 2, (n,)) for n, width in zip(counts, widths, strict=True)]
    chunks = chunked(np.concatenate([line.points for line in lines]), owner, owner, CHUNK)
    return _Bars(lines, widths, chunks, owner, np.concatenate(half), np.concatenate([[0], np.cumsum(counts)]))


def _doubling(chunks: Chunks) -> Keep:
    """Keeps pairs of chunks of one curve between which it turns enough to come back."""
    turned = _turned(chunks)
    first, last = turned[chunks.start[:-1]], turned[chunks.start[1:] - 1]

    def keep(a: Whole, b: Whole) -> NDArray[np.bool_]:
        much = np.maximum(last[a], last[b]) - np.minimum(first[a], first[b]) >= HALF_ROUND
        mine: NDArray[np.bool_] = (chunks.owner[a] == chunks.owner[b]) & (a <= b) & much
        return mine

    return keep


def _turned(chunks: Chunks) -> Floats:
    """Turning up to each point, either way counted, rad."""
    heading = np.angle(chunks.along)
    step = np.abs((np.diff(heading) + np.pi) % (2 * np.pi) - np.pi)
    return np.concatenate([[0.0], np.cumsum(step)])


def _came_back(bars: _Bars, reach: float) -> Counts:
    """Tells the records where a curve lies beside itself from those of its own neighbourhood."""
    lengths = np.array([line.length if line.closed else np.inf for line in bars.lines])

    def counts(near: NearRecords) -> NDArray[np.bool_]:
        arc = np.abs(near.foot_station - bars.chunks.station[near.point])
        arc = np.minimum(arc, lengths[bars.owner[near.point]] - arc)
        width = bars.half[near.point] + bars.half[near.segment]
        came: NDArray[np.bool_] = arc >= CAME_BACK * np.maximum(np.maximum(near.distance, width), LEAST)
        return came & (near.distance - width < reach)

    return counts


def _beside(bars: _Bars, near: NearRecords) -> list[int]:
    """The records, one for each place, where a curve has come back: the nearest of each run."""
    if not len(near.point):
        return []
    gap = near.distance - bars.half[near.point] - bars.half[near.segment]
    first = np.minimum(near.foot_station, bars.chunks.station[near.point])
    order = np.argsort(first, kind="stable")
    step = np.abs(bars.chunks.along[near.point[order]])
    joined = np.maximum(JOINED, 1.5 * np.maximum(step[1:], step[:-1]))
    apart = np.flatnonzero(np.diff(first[order]) > joined) + 1
    return [int(run[np.argmin(gap[run])]) for run in np.split(order, apart)]


def _measured(bars: _Bars, near: NearRecords, row: int) -> CameBack:
    """The place measured on the two stretches of bar as they are."""
    index = int(bars.owner[near.point[row]])
    begin = bars.chunks.station[bars.start[index]]
    s, t = sorted((float(bars.chunks.station[near.point[row]] - begin), float(near.foot_station[row] - begin)))
    line, width = bars.lines[index], bars.widths[index]
    reach = min(2 * float(np.max(width)), 0.3 * (t - s))  # well short of one another
    ours, theirs = (_stretch(line, width, at, reach) for at in (s, t))
    gap = ours.distance(theirs)
    shared = ours.overlap(theirs) if gap == 0.0 else None
    return CameBack(index=index, s=s, t=t, gap=gap, between=ours.nearest(theirs), shared=shared)


def _stretch(line: Curve, width: float | Floats, s: float, reach: float) -> Area:
    low, high = max(0.0, s - reach), min(line.length, s + reach)
    piece = line.piece(low, high)
    if isinstance(width, float | int):
        return band(piece, float(width))
    along = np.interp(low + piece.stations[: len(piece.points)], line.stations[: len(width)], width)
    return band(piece, np.maximum(along, THINNEST))
