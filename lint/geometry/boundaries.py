"""Boundaries in short steps, only where another thing's boundary comes near: little of a grille lies near the rest."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.chunks import FAR, Chunks, boxes, in_chunks, near_boxes
from lint.values import dataclass

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Whole = NDArray[np.intp]
Shapes = NDArray[np.object_]

STEP = 2.0  # mm between boundary points: a coarser step could join two places, a finer one only costs time
MOST = 50_000  # steps round one area: 100 m of boundary; a longer one is a stray node, and takes longer steps
CHUNK = 5  # points whose neighbours are sought together
STRETCH = 24  # steps: the stretches of boundary that are kept or left out as a whole


@dataclass(frozen=True, slots=True, eq=False)
class _Pieces:
    """Straight pieces of boundary, in order: where each starts, the way along it (points are complex numbers), how far
    along all boundaries it starts (mm), and whose it is. Each ring ends with a piece of no length."""

    start: Complexes
    along: Complexes
    station: Floats
    owner: Whole

    def where(self, kept: NDArray[np.bool_]) -> _Pieces:
        return _Pieces(self.start[kept], self.along[kept], self.station[kept], self.owner[kept])

    def stretches(self) -> Whole:
        """The first piece of each stretch."""
        place = (self.station / (STRETCH * STEP)).astype(np.int64)  # no two rings share one: they are FAR apart
        return np.flatnonzero(np.append(True, place[1:] != place[:-1]))

    def cut(self, step: Floats) -> _Pieces:
        """The same in pieces no longer than the step (mm) of their owner."""
        long = np.abs(self.along)
        count = np.maximum(np.ceil(long / step[self.owner]), 1).astype(np.intp)
        row = np.repeat(np.arange(len(count)), count)
        along = (self.along / count)[row]
        number = np.arange(len(row)) - (np.cumsum(count) - count)[row]
        station = self.station[row] + number * (long / count)[row]
        return _Pieces(self.start[row] + number * along, along, station, self.owner[row])


def boundaries(shapes: Shapes, reach: float) -> Chunks:
    """The boundaries of areas in steps of 2 mm at most, owned by the areas (by index). What lies nowhere within
    `reach` mm of another's is left out, but for the rest of its stretch of 48 mm."""
    lines = shapely.boundary(shapes)
    step = np.maximum(STEP, shapely.length(lines) / MOST)
    whole = _pieces(shapely.segmentize(lines, STRETCH * step))
    first = whole.stretches()
    owner = whole.owner[first]
    near = np.zeros(len(first), dtype=bool)
    for a, _ in near_boxes(boxes(whole.start, whole.along, first), reach, lambda a, b: owner[a] != owner[b]):
        near[a] = True
    fine = whole.where(np.repeat(near, np.diff(first, append=len(whole.owner)))).cut(step)
    return in_chunks(fine.start, fine.along, fine.station, fine.stretches(), fine.owner, CHUNK)


def _pieces(lines: Shapes) -> _Pieces:
    rings, owner = shapely.get_parts(lines, return_index=True)
    xy, ring = shapely.get_coordinates(rings, return_index=True)
    start = xy.view(np.complex128)[:, 0]
    along = np.append(start[1:] - start[:-1], 0)
    last = np.flatnonzero(np.append(ring[1:] != ring[:-1], True))
    long = np.abs(along)
    long[last], along[last] = FAR, 0
    return _Pieces(start, along, np.append(0.0, np.cumsum(long)[:-1]), owner[ring])
