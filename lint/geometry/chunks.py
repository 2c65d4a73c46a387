"""Long polylines in short chunks, and which points of one come near which segments of another."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.curve import dot
from lint.values import dataclass

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Whole = NDArray[np.intp]
Keep = Callable[[Whole, Whole], NDArray[np.bool_]]

CHUNK = 8  # points: longer chunks have fewer, looser boxes
BLOCK = 400_000  # point-to-segment distances worked at a time
SOUGHT = 16_384  # chunks whose neighbours are sought at a time
PAIRS = 65_536  # pairs of chunks worked at a time
TINY = 1e-300  # mm2: a segment of no length divides by this


@dataclass(frozen=True, slots=True, eq=False)
class Chunks:
    """Points `xy` (n, 2), each with the segment that leads to `following` (itself at the end of a line), and its
    `station` along all lines one after another, mm. Chunk c holds points `start[c]` to `start[c + 1]`; it belongs
    to the thing `owner[c]` and lies within `box[c]` (left, top, right, bottom)."""

    xy: Floats
    following: Floats
    station: Floats
    start: Whole
    owner: Whole
    box: Floats

    def vectors(self, point: Whole, segment: Whole) -> tuple[Complexes, Complexes]:
        """From the start of each segment to its point, and to its end, as complex numbers, which are quicker to work
        with than rows of two."""
        z, following = self.xy.view(np.complex128)[:, 0], self.following.view(np.complex128)[:, 0]
        start = z[segment]
        return z[point] - start, following[segment] - start

    def owner_of_point(self, point: Whole) -> Whole:
        """The owner of each point."""
        found: Whole = self.owner[np.searchsorted(self.start, point, side="right") - 1]
        return found


@dataclass(frozen=True, slots=True, eq=False)
class NearRecords:
    """For a point and another owner within reach: the nearest of its segments, the foot on it and how far. mm."""

    point: Whole
    segment: Whole
    foot: Floats
    foot_station: Floats
    distance: Floats

    def where(self, kept: Whole | NDArray[np.bool_]) -> NearRecords:
        """Some of the records, by mask or index."""
        return NearRecords(*(getattr(self, name)[kept] for name in NearRecords.__slots__))


Counts = Callable[[NearRecords], NDArray[np.bool_]]


def chunked(xy: Floats, line: Whole, owner: Whole) -> Chunks:
    """Chunks of polylines given as one run of points, each with the number of its line and its owner."""
    same = np.concatenate([line[1:] == line[:-1], [False]])
    last = np.flatnonzero(~same)
    following = np.concatenate([xy[1:], xy[-1:]])
    following[last] = xy[last]
    long = np.abs((following - xy).view(np.complex128)[:, 0])
    long[last] = 1e3
    station = np.concatenate([[0.0], np.cumsum(long)[:-1]])
    first = np.concatenate([[0], last[:-1] + 1])
    within = np.arange(len(xy)) - np.repeat(first, last + 1 - first)
    start = np.flatnonzero(within % CHUNK == 0)
    low = np.minimum.reduceat(np.minimum(xy, following), start)
    high = np.maximum.reduceat(np.maximum(xy, following), start)
    return Chunks(xy, following, station, np.append(start, len(xy)), owner[start], np.hstack([low, high]))


def near_records(chunks: Chunks, reach: float, keep: Keep, counts: Counts | None = None) -> NearRecords:
    """Every point with the nearest segment of each other thing within `reach` mm.

    `keep(a, b)` says which pairs of chunks (by number) are looked at, `counts` which records count at all. Works a
    block at a time, so that even a scribble that lies on itself everywhere takes bounded memory.
    """
    # Boxes that come within reach of one another meet when each has grown by half of it. A diagonal has the same box,
    # which is all that an index needs, and is quicker to make.
    grown = chunks.box + np.array([-reach, -reach, reach, reach]) / 2
    boxes = np.asarray(shapely.linestrings(grown.reshape(-1, 2, 2)), dtype=object)
    tree = shapely.STRtree(boxes)
    found = []
    for begin in range(0, len(boxes), SOUGHT):
        a, b = tree.query(boxes[begin : begin + SOUGHT])
        wanted = keep(a + begin, b)
        a, b = a[wanted] + begin, b[wanted]
        for k in range(0, len(a), PAIRS):
            near = _near(chunks, a[k : k + PAIRS], b[k : k + PAIRS], reach, every=counts is not None)
            found.append(_nearest_only(chunks, near.where(counts(near)) if counts else near))
    return found[0] if len(found) == 1 else _nearest_only(chunks, _joined([_none(), *found]))


def _near(chunks: Chunks, a: Whole, b: Whole, reach: float, *, every: bool) -> NearRecords:
    point, other = _points_near_boxes(chunks, a, b, reach)
    size = max(1, BLOCK // CHUNK)
    blocks = [slice(k, k + size) for k in range(0, len(point), size)]
    return _joined([_none(), *(_distances(chunks, point[some], other[some], reach, every=every) for some in blocks)])


def _none() -> NearRecords:
    whole, real = np.zeros(0, dtype=np.intp), np.zeros(0)
    return NearRecords(whole, whole, np.zeros((0, 2)), real, real)


def _joined(parts: Sequence[NearRecords]) -> NearRecords:
    return NearRecords(*(np.concatenate([getattr(part, name) for part in parts]) for name in NearRecords.__slots__))


def _points_near_boxes(chunks: Chunks, a: Whole, b: Whole, reach: float) -> tuple[Whole, Whole]:
    """The points of chunks `a` that lie within reach of the boxes of chunks `b`: (point, chunk) rows."""
    point, row = _spread(chunks.start, a)
    other = b[row]
    box, xy = chunks.box[other], chunks.xy[point]
    out = np.maximum(np.maximum(box[:, :2] - xy, xy - box[:, 2:]), 0.0)
    near = dot(out, out) <= reach * reach
    return point[near], other[near]


def _spread(start: Whole, chunk: Whole) -> tuple[Whole, Whole]:
    """All points of each chunk in turn, and the row of `chunk` that each came from."""
    counts = start[chunk + 1] - start[chunk]
    row = np.repeat(np.arange(len(chunk)), counts)
    offset = np.arange(len(row)) - np.repeat(np.cumsum(counts) - counts, counts)
    return start[chunk][row] + offset, row


def _distances(chunks: Chunks, point: Whole, other: Whole, reach: float, *, every: bool) -> NearRecords:
    """From each point to `every` segment within reach of the chunk beside it, or to the nearest one."""
    segment, row = _spread(chunks.start, other)
    point = point[row]
    out, along = chunks.vectors(point, segment)
    t = np.clip((out * along.conj()).real / np.maximum(square := _squared(along), TINY), 0.0, 1.0)
    off = out - t * along
    far = _squared(off)
    close = far <= reach * reach
    if not every:
        begins = np.flatnonzero(np.concatenate([[True], row[1:] != row[:-1]]))
        close &= far == np.minimum.reduceat(far, begins)[row]
    near = np.flatnonzero(close)
    point, segment, off = point[near], segment[near], off[near]
    foot = chunks.xy[point] - np.column_stack([off.real, off.imag])
    station = chunks.station[segment] + t[near] * np.sqrt(square[near])
    return NearRecords(point, segment, foot, station, np.abs(off))


def _squared(z: Complexes) -> Floats:
    squares: Floats = z.real * z.real + z.imag * z.imag
    return squares


def _nearest_only(chunks: Chunks, found: NearRecords) -> NearRecords:
    key = found.point * (int(chunks.owner.max(initial=0)) + 1) + chunks.owner_of_point(found.segment)
    order = np.lexsort((found.distance, key))
    key = key[order]
    first = np.concatenate([[True], key[1:] != key[:-1]])[: len(order)]
    return found.where(order[first])
