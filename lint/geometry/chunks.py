"""Long polylines in short chunks, and which points of one come near which segments of another."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.values import dataclass

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Whole = NDArray[np.intp]
Keep = Callable[[Whole, Whole], NDArray[np.bool_]]

BLOCK = 50_000  # points to a chunk beside them worked at a time
SOUGHT = 16_384  # chunks whose neighbours are sought at a time
PAIRS = 65_536  # pairs of chunks worked at a time
FAR = 1e3  # mm: by so much the stations of one line follow those of the last, so that no run goes on over both
TINY = 1e-300  # mm2: a segment of no length divides by this


@dataclass(frozen=True, slots=True, eq=False)
class Chunks:
    """Points `at` (n,), each with the way `along` the segment that leads on from it (0 at the end of a line), and its
    `station` along all lines one after another, mm. Chunk c holds points `start[c]` to `start[c + 1]`; it belongs
    to the thing `owner[c]` and lies within `box[c]` (left, top, right, bottom).

    Points and vectors are complex numbers, which are quicker to work with than rows of two."""

    at: Complexes
    along: Complexes
    station: Floats
    start: Whole
    owner: Whole
    box: Floats

    def owner_of_point(self, point: Whole) -> Whole:
        """The owner of each point."""
        found: Whole = self.owner[np.searchsorted(self.start, point, side="right") - 1]
        return found


@dataclass(frozen=True, slots=True, eq=False)
class NearRecords:
    """For a point and another owner within reach: the nearest of its segments, the foot on it and how far. mm."""

    point: Whole
    segment: Whole
    foot: Complexes
    foot_station: Floats
    distance: Floats

    def where(self, kept: Whole | NDArray[np.bool_]) -> NearRecords:
        """Some of the records, by mask or index."""
        return NearRecords(*(getattr(self, name)[kept] for name in NearRecords.__slots__))


Counts = Callable[[NearRecords], NDArray[np.bool_]]


def chunked(xy: Floats, line: Whole, owner: Whole, size: int) -> Chunks:
    """Chunks of `size` points of polylines given as one run of points (n, 2), each with the number of its line and its
    owner. Longer chunks have fewer, looser boxes."""
    at = np.ascontiguousarray(xy).view(np.complex128)[:, 0]
    new = np.append(True, line[1:] != line[:-1])
    along = np.append(at[1:] - at[:-1], 0)
    last = np.append(np.flatnonzero(new)[1:], len(at)) - 1
    long = np.abs(along)
    long[last], along[last] = FAR, 0
    return in_chunks(at, along, np.append(0.0, np.cumsum(long)[:-1]), np.flatnonzero(new), owner, size)


def in_chunks(at: Complexes, along: Complexes, station: Floats, first: Whole, owner: Whole, size: int) -> Chunks:
    """Chunks of `size` points in order, where runs of them start at `first`; `owner` is of each point."""
    counts = np.append(first[1:], len(at)) - first
    within = np.arange(len(at)) - np.repeat(first, counts)
    start = np.flatnonzero(within % size == 0)
    return Chunks(at, along, station, np.append(start, len(at)), owner[start], boxes(at, along, start))


def boxes(at: Complexes, along: Complexes, start: Whole) -> Floats:
    """Left, top, right, bottom of the segments from each number of `start` up to the next: shape (n, 4)."""
    if not len(start):
        return np.zeros((0, 4))
    last = np.append(start[1:], len(at)) - 1
    ends = _rows(at[last] + along[last])
    low, high = (ufunc.reduceat(_rows(at), start) for ufunc in (np.minimum, np.maximum))
    return np.hstack([np.minimum(low, ends), np.maximum(high, ends)])


def _rows(z: Complexes) -> Floats:
    return z.view(np.float64).reshape(-1, 2)


def near_boxes(box: Floats, reach: float, keep: Keep) -> Iterator[tuple[Whole, Whole]]:
    """Every pair of boxes (n, 4), by number, that come within `reach` mm of one another and that `keep(a, b)` wants;
    each both ways, some boxes at a time."""
    # They meet when each has grown by half of it. A diagonal has the same box, which is all that an index needs, and
    # is quicker to make.
    grown = box + np.array([-reach, -reach, reach, reach]) / 2
    lines = np.asarray(shapely.linestrings(grown.reshape(-1, 2, 2)), dtype=object)
    tree = shapely.STRtree(lines)
    for begin in range(0, len(lines), SOUGHT):
        a, b = tree.query(lines[begin : begin + SOUGHT])
        wanted = keep(a + begin, b)
        yield a[wanted] + begin, b[wanted]


def near_records(chunks: Chunks, reach: float, keep: Keep, counts: Counts | None = None) -> NearRecords:
    """Every point with the nearest segment of each other thing within `reach` mm.

    `keep(a, b)` says which pairs of chunks (by number) are looked at, `counts` which records count at all. Works a
    block at a time, so that even a scribble that lies on itself everywhere takes bounded memory.
    """
    found = []
    for a, b in near_boxes(chunks.box, reach, keep):
        for k in range(0, len(a), PAIRS):
            near = _near(chunks, a[k : k + PAIRS], b[k : k + PAIRS], reach, every=counts is not None)
            found.append(_nearest_only(chunks, near.where(counts(near)) if counts else near))
    return found[0] if len(found) == 1 else _nearest_only(chunks, _joined([_none(), *found]))


def _near(chunks: Chunks, a: Whole, b: Whole, reach: float, *, every: bool) -> NearRecords:
    point, other = _points_near_boxes(chunks, a, b, reach)
    blocks = [slice(k, k + BLOCK) for k in range(0, len(point), BLOCK)]
    return _joined([_none(), *(_distances(chunks, point[some], other[some], reach, every=every) for some in blocks)])


def _none() -> NearRecords:
    whole, real = np.zeros(0, dtype=np.intp), np.zeros(0)
    return NearRecords(whole, whole, np.zeros(0, dtype=np.complex128), real, real)


def _joined(parts: Sequence[NearRecords]) -> NearRecords:
    return NearRecords(*(np.concatenate([getattr(part, name) for part in parts]) for name in NearRecords.__slots__))


def _points_near_boxes(chunks: Chunks, a: Whole, b: Whole, reach: float) -> tuple[Whole, Whole]:
    """The points of chunks `a` that lie within reach of the boxes of chunks `b`: (point, chunk) rows."""
    point, row = _spread(chunks.start, a)
    other = b[row]
    at = chunks.at[point]
    left, top, right, bottom = chunks.box.T[:, other]
    across = np.maximum(np.maximum(left - at.real, at.real - right), 0.0)
    down = np.maximum(np.maximum(top - at.imag, at.imag - bottom), 0.0)
    near = across * across + down * down <= reach * reach
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
    out, along = chunks.at[point] - chunks.at[segment], chunks.along[segment]
    t = (out * along.conj()).real / np.maximum(square := _squared(along), TINY)
    t = np.minimum(np.maximum(t, 0.0), 1.0)
    off = out - t * along
    far = _squared(off)
    close = far <= reach * reach
    if not every:
        begins = np.flatnonzero(np.append(True, row[1:] != row[:-1]))
        close &= far == np.minimum.reduceat(far, begins)[row]
    near = np.flatnonzero(close)
    point, segment, off = point[near], segment[near], off[near]
    station = chunks.station[segment] + t[near] * np.sqrt(square[near])
    return NearRecords(point, segment, chunks.at[point] - off, station, np.abs(off))


def _squared(z: Complexes) -> Floats:
    squares: Floats = z.real * z.real + z.imag * z.imag
    return squares


def _nearest_only(chunks: Chunks, found: NearRecords) -> NearRecords:
    key = found.point * (int(chunks.owner.max(initial=0)) + 1) + chunks.owner_of_point(found.segment)
    order = np.lexsort((found.distance, key))
    key = key[order]
    first = np.append(True, key[1:] != key[:-1])[: len(order)]
    return found.where(order[first])
