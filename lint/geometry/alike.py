"""Shapes that are copies of one another, moved, turned or mirrored: what is found in one holds in all of them."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.values import dataclass

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Whole = NDArray[np.intp]
Shapes = NDArray[np.object_]

POLYGON = 3  # shapely's number of the kind
SAME = 1e-6  # mm between the corners of two copies: rounding leaves a thousandth of that
SORTED = (
    3  # decimals of mm: only shapes that reach as far as that are compared; where rounding parts two, nothing is lost
)


@dataclass(frozen=True, slots=True, eq=False)
class Alike:
    """For each of n shapes the first one like it (`of`, its own index where there is none), and its own place: its
    `middle`, the unit vector `way` to its farthest corner, and whether it is `mirrored` against the first. Points
    are complex numbers."""

    of: Whole
    middle: Complexes
    way: Complexes
    mirrored: NDArray[np.bool_]

    def carried(self, at: Complexes) -> Complexes:
        """A point of the first one like each shape (n,) as it lies in the shape itself: shape (n,)."""
        own = (at - self.middle[self.of]) * self.way[self.of].conj()
        return self.middle + self.way * np.where(self.mirrored, own.conj(), own)


def alike(shapes: Shapes) -> Alike:
    """Which polygons are copies, corner by corner. One with holes, or in several parts, is like no other."""
    count = len(shapes)
    nowhere, level = np.zeros(count, dtype=np.complex128), np.ones(count, dtype=np.complex128)
    found = Alike(np.arange(count), nowhere, level, np.zeros(count, dtype=bool))
    one_ring = (shapely.get_type_id(shapes) == POLYGON) & (shapely.get_num_interior_rings(shapes) == 0)
    plain = np.flatnonzero(one_ring)
    if len(plain) < 2:
        return found
    corners, found.middle[plain], found.way[plain] = _laid_alike(shapes[plain])
    firsts: dict[tuple[int, float], list[int]] = {}
    for k, own in enumerate(corners):
        like = firsts.setdefault((len(own), round(float(own[0].real), SORTED)), [])
        turned_over = np.append(own[:1], own[:0:-1]).conj()
        for one in like:
            same, over = _same(own, corners[one]), _same(turned_over, corners[one])
            if same or over:
                found.of[plain[k]], found.mirrored[plain[k]] = plain[one], not same
                break
        else:
            like.append(k)
    return found


def _same(one: Complexes, other: Complexes) -> bool:
    return bool(np.abs(one - other).max() <= SAME)


def _laid_alike(shapes: Shapes) -> tuple[list[Complexes], Complexes, Complexes]:
    """(the corners of each shape about its middle, the farthest first and on the positive real axis; middles; ways)."""
    xy, of = shapely.get_coordinates(shapely.get_exterior_ring(shapely.orient_polygons(shapes)), return_index=True)
    open_ = np.append(of[1:] == of[:-1], False)  # a ring repeats its first corner
    z, of = xy.view(np.complex128)[open_, 0], of[open_]
    first = np.searchsorted(of, np.arange(len(shapes)))
    counts = np.diff(first, append=len(of))
    middle: Complexes = np.asarray(np.add.reduceat(z, first) / counts, dtype=np.complex128)
    z -= middle[of]
    far = np.abs(z)
    farthest = np.flatnonzero(far == np.maximum.reduceat(far, first)[of])
    farthest = farthest[np.searchsorted(of[farthest], np.arange(len(shapes)))]
    way: Complexes = z[farthest] / far[farthest]
    place = np.arange(len(of)) - first[of] + (farthest - first)[of]
    z = (z * way.conj()[of])[first[of] + place % counts[of]]
    return np.split(z, first[1:]), middle, way
