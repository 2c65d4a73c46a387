"""Points of one boundary that face another within reach, each with the nearest place there.

Boundaries are cut into short chunks whose boxes go into one spatial index; distances are then worked only
between chunks that come within reach, so that the work grows with the number of near places.
"""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.boundaries import boundaries
from lint.geometry.chunks import near_records
from lint.values import dataclass

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Whole = NDArray[np.intp]


@dataclass(frozen=True, slots=True, eq=False)
class Records:
    """Points of one boundary with the nearest point of the other: one row each, sorted by pair and by place."""

    pair: Whole
    place: Floats  # along the boundary of the first, mm
    own: Complexes  # on the first
    other: Complexes  # on the second
    gap: Floats  # negative inside

    def where(self, mask: NDArray[np.bool_]) -> Records:
        return Records(self.pair[mask], self.place[mask], self.own[mask], self.other[mask], self.gap[mask])


def records_of(shapes: NDArray[np.object_], reach: float) -> Records:
    """Every boundary point with the nearest point of each other area within reach."""
    chunks = boundaries(shapes, reach)
    near = near_records(chunks, reach, lambda a, b: chunks.owner[a] != chunks.owner[b])
    mine, theirs = chunks.owner_of_point(near.point), chunks.owner_of_point(near.segment)
    at = chunks.at[near.point]
    gap = np.where(_inside(shapes, at, mine, theirs), -near.distance, near.distance)
    swap = mine > theirs
    own, other = np.where(swap, near.foot, at), np.where(swap, at, near.foot)
    place = np.where(swap, near.foot_station, chunks.station[near.point])
    pair = np.minimum(mine, theirs) * len(shapes) + np.maximum(mine, theirs)
    order = np.lexsort((place, pair))
    return Records(pair[order], place[order], own[order], other[order], gap[order])


def _inside(shapes: NDArray[np.object_], at: Complexes, mine: Whole, theirs: Whole) -> NDArray[np.bool_]:
    """Whether each point lies inside the other area. Asked only where the two areas meet at all."""
    low, high = np.minimum(mine, theirs), np.maximum(mine, theirs)
    pairs, which = np.unique(low * len(shapes) + high, return_inverse=True)
    a, b = pairs // len(shapes), pairs % len(shapes)
    shapely.prepare(shapes[np.flatnonzero(np.bincount(theirs))])
    meet = shapely.intersects(shapes[a], shapes[b])[which]
    inside = np.zeros(len(at), dtype=bool)
    inside[meet] = shapely.contains_xy(shapes[theirs[meet]], at[meet].real, at[meet].imag)
    return inside
