"""Whether any circle in a shape is larger than the one found: cells of the plane ruled out until none is left."""

from __future__ import annotations

from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.values import dataclass

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Whole = NDArray[np.int64]
Shapes = NDArray[np.object_]

# A centre with so much more room than the circle found (mm) shows a larger one; less is rounding.
MORE = 1e-9

# A shape that starts with more cells, or keeps more, has a long level ridge (a slot) and is left undecided.
FIRST = 2000
KEPT = 64

QUARTERS = np.array([-1 - 1j, -1 + 1j, 1 - 1j, 1 + 1j]) / 2


@dataclass(frozen=True, slots=True, eq=False)
class Larger:
    """Shapes, by index, that hold a larger circle (each with the centre of one), and those that are undecided."""

    which: Whole
    centres: Floats  # (n, 2), mm, one for each of `which`
    undecided: Whole


@dataclass(frozen=True, slots=True, eq=False)
class _Cells:
    """Squares by their middles (complex numbers, n), each with the shape it belongs to."""

    at: Complexes
    of: Whole

    def where(self, kept: NDArray[np.bool_]) -> _Cells:
        return _Cells(self.at[kept], self.of[kept])

    def quartered(self, half: Floats) -> _Cells:
        """Four cells in place of each; `half` is half the side of each shape's cells, mm."""
        return _Cells((self.at[:, None] + half[self.of][:, None] * QUARTERS).ravel(), np.repeat(self.of, 4))


def larger(shapes: Shapes, best: Floats, held: Floats, accuracy: float) -> Larger:
    """Which shapes hold a circle that is larger by `accuracy` mm or more than the `best` found: (x, y, radius) rows.

    `held` is how far round each centre the contacts alone rule out a larger circle (`held_within`). A cell is ruled
    out where that reaches over it, where its middle is outside (a cell's corner is never farther off than the radius
    sought), or where its middle comes nearer to the edge than that radius less the way to its corner. What is left
    is cut in four. A cell no larger than `accuracy` that is not ruled out has a larger circle about its middle, so
    every shape is decided, but for those with a long level ridge.
    """
    edges = np.asarray(shapely.boundary(shapes), dtype=object)
    shapely.prepare(edges)
    shapely.prepare(shapes)
    middle, over = best[:, 0] + 1j * best[:, 1], best[:, 2] + accuracy
    cells, wide = _first_cells(shapes, over / np.sqrt(2))
    centre = np.full(len(shapes), np.nan + 0j)  # of a larger circle
    share = 1.0
    while len(cells.of):
        corner = share * over  # from the middle of a cell to its corner
        cells = cells.where(np.abs(cells.at - middle[cells.of]) + corner[cells.of] > held[cells.of])
        cells = cells.where(shapely.contains_xy(shapes[cells.of], cells.at.real, cells.at.imag))
        if share < 1:
            cells = cells.where(_roomier(edges, cells, over - corner))
        found = cells.where(_roomier(edges, cells, best[:, 2] + MORE))
        centre[found.of] = found.at
        wide |= np.bincount(cells.of, minlength=len(shapes)) > KEPT
        cells = cells.where((np.isnan(centre) & ~wide)[cells.of]).quartered(corner / np.sqrt(2))
        share /= 2
    shapely.destroy_prepared(shapes)
    shown = ~np.isnan(centre)
    at = centre[shown]
    return Larger(np.flatnonzero(shown), np.column_stack([at.real, at.imag]), np.flatnonzero(wide & ~shown))


def held_within(best: Floats, angle: Floats, of: Whole) -> Floats:
    """How far round each circle's centre no centre has more room, by its contacts alone: shape (n,), mm.

    `angle` (radians) is the way from each contact to the centre, `of` its circle; a contact is a point of the edge
    no farther from the centre than the radius asked about. From a centre moved by d, the contact that it moves most
    towards is at most sqrt(R^2 - 2 r s d + d^2) away, where s is the cosine of half the widest angle between
    neighbouring contacts; so no farther than R while d is under 2 r s.
    """
    order = np.lexsort((angle, of))
    angle, of = angle[order], of[order]
    first = np.searchsorted(of, np.arange(len(best)))
    last = np.append(first[1:], len(of)) - 1
    gap = np.diff(angle, append=0.0)
    gap[last] = angle[first] + 2 * np.pi - angle[last]
    widest = np.maximum.reduceat(gap, first)
    within: Floats = 2 * best[:, 2] * np.maximum(np.cos(widest / 2), 0.0)
    return within


def _first_cells(shapes: Shapes, half: Floats) -> tuple[_Cells, NDArray[np.bool_]]:
    """Cells of half the side `half` over each shape's extent; and which shapes would have too many."""
    left, top, right, bottom = shapely.bounds(shapes).T
    across, down = np.ceil((right - left) / half / 2), np.ceil((bottom - top) / half / 2)
    across, down = np.maximum(across, 1), np.maximum(down, 1)
    few = across * down <= FIRST
    counts = np.where(few, across * down, 0).astype(np.int64)
    of = np.repeat(np.arange(len(shapes)), counts)
    number = np.arange(len(of)) - np.repeat(np.cumsum(counts) - counts, counts)
    column, row = number % across[of], number // across[of]
    x = ((left + right) / 2)[of] + (2 * column + 1 - across[of]) * half[of]
    y = ((top + bottom) / 2)[of] + (2 * row + 1 - down[of]) * half[of]
    return _Cells(x + 1j * y, of), ~few


def _roomier(edges: Shapes, cells: _Cells, radius: Floats) -> NDArray[np.bool_]:
    """Whether the edge stays farther from each cell's middle than its shape's `radius`."""
    within: Any = shapely.dwithin  # takes a distance for each pair, which its types leave out
    middles = shapely.points(cells.at.real, cells.at.imag)
    with np.errstate(all="ignore"):  # GEOS divides by what may be zero on its way, and minds the result itself
        near: NDArray[np.bool_] = within(edges[cells.of], middles, radius[cells.of])
    return ~near
