"""Climbing from a centre inside a shape to where its contacts hold the circle: the top of one hill of clear radius."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.values import dataclass

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Shapes = NDArray[np.object_]

# Contacts are looked for in this many directions about the centre, the nearest in each. Fewer would merge two
# contacts into one and leave the circle short.
SECTORS = 10

# So many of them, the nearest, are tried in twos and threes as what holds the circle: the cost is this number cubed.
HOLDING = 6
TRIPLES = np.array(list(combinations(range(HOLDING), 3))).T
PAIRS = np.array(list(combinations(range(HOLDING), 2))).T

# Climbing stops when a step gains less than this (mm), or after so many steps.
STILL = 1e-9
ROUNDS = 10


@dataclass(frozen=True, slots=True, eq=False)
class Edges:
    """The boundary chords of many shapes in one array, each knowing its shape, and where each shape's begin. Points
    are complex numbers, which are quicker to work with than rows of two."""

    start: Complexes
    along: Complexes
    square: Floats
    of: NDArray[np.int64]
    first: NDArray[np.int64]

    @classmethod
    def round(cls, shapes: Shapes) -> Edges:
        """All chords of all boundaries."""
        parts, of_shape = shapely.get_parts(shapes, return_index=True)
        rings, of_part = shapely.get_rings(parts, return_index=True)
        points, of_ring = shapely.get_coordinates(rings, return_index=True)
        chord = of_ring[:-1] == of_ring[1:]
        z = points.view(np.complex128)[:, 0]
        along = (z[1:] - z[:-1])[chord]
        of = of_shape[of_part[of_ring[:-1][chord]]]
        square = np.maximum(_squared(along), 1e-300)
        return cls(z[:-1][chord], along, square, of, np.searchsorted(of, np.arange(len(shapes))))

    def feet(self, centres: Complexes) -> tuple[Complexes, Floats]:
        """From the nearest place of each chord to its shape's centre: the vectors, and the distances."""
        out = centres[self.of] - self.start
        share = (out * self.along.conj()).real / self.square
        out -= np.minimum(np.maximum(share, 0.0), 1.0) * self.along
        return out, np.sqrt(_squared(out))


def _squared(z: Complexes) -> Floats:
    squares: Floats = z.real * z.real + z.imag * z.imag
    return squares


def climbed(edges: Edges, centres: Floats) -> Floats:
    """(x, y, radius) after climbing from a centre inside each shape to the top of its hill: shape (n, 3)."""
    at = centres[:, 0] + 1j * centres[:, 1]
    trust = np.full(len(centres), np.inf)
    out, far = edges.feet(at)
    radius = np.minimum.reduceat(far, edges.first)
    for turn in range(ROUNDS):
        away, units = _contacts(edges, out, far, turn)
        steps = _steps(away, units, np.minimum(trust, 0.2 * radius))
        out_there, far_there = edges.feet(at + steps)
        gain = np.minimum.reduceat(far_there, edges.first) - radius
        up, sizes = gain > 0, np.abs(steps)
        at[up] += steps[up]
        radius[up] += gain[up]
        trust[~up] = sizes[~up] / 4
        if not ((sizes > STILL) & ((gain > STILL) | ~up)).any():
            break
        moved = up[edges.of]
        out, far = np.where(moved, out_there, out), np.where(moved, far_there, far)
    return np.column_stack([at.real, at.imag, radius])


def _steps(away: Floats, units: Complexes, trust: Floats) -> Complexes:
    """The step from each centre that gains most while the contacts are taken as straight: shape (n,)."""
    rows = np.arange(len(away))[:, None]
    nearest = np.argsort(away, axis=1)[:, :HOLDING]
    held, ways = away[rows, nearest], units[rows, nearest]
    tries = np.concatenate([np.zeros((len(away), 1)), _on_pairs(held, ways), _on_triples(held, ways)], axis=1)
    tries *= np.minimum(1, trust[:, None] / np.maximum(np.abs(tries), 1e-300))
    promise = (away[:, None] + _dot(tries[:, :, None], units[:, None])).min(axis=2)
    chosen: Complexes = tries[rows[:, 0], promise.argmax(axis=1)]
    return chosen


def _contacts(edges: Edges, out: Complexes, far: Floats, turn: int) -> tuple[Floats, Complexes]:
    """The nearest boundary in each sector about each centre: distances (n, SECTORS), unit vectors to the centre.

    A sector without any stands for a contact far off. The sectors are turned a little from round to round, so that
    two contacts that shared one are told apart in the next.
    """
    n = len(edges.first)
    near = np.flatnonzero(far <= (1.5 * np.minimum.reduceat(far, edges.first))[edges.of])  # steps are 0.2 r at most
    out, far, of = out[near], far[near], edges.of[near]
    angle = np.angle(out) / (2 * np.pi) + turn * 0.382 / SECTORS
    slot = of * SECTORS + np.minimum(((angle % 1.0) * SECTORS).astype(np.int64), SECTORS - 1)
    order = np.argsort(far)[::-1]
    nearest = np.full(n * SECTORS, -1)
    nearest[slot[order]] = order  # the last written is the nearest
    taken = nearest >= 0
    nearest = nearest[taken]
    away = np.full(n * SECTORS, 1e9)
    units = np.zeros(n * SECTORS, dtype=np.complex128)
    away[taken] = far[nearest]
    units[taken] = out[nearest] / np.maximum(far[nearest], 1e-12)
    return away.reshape(n, SECTORS), units.reshape(n, SECTORS)


def _on_triples(away: Floats, units: Complexes) -> Complexes:
    """Steps that make three contacts equally far: shape (n, triples). Where there is none, no step."""
    i, j, k = TRIPLES
    p, q = units[:, i] - units[:, j], units[:, i] - units[:, k]
    across = p.real * q.imag - p.imag * q.real
    steps: Complexes = 1j * ((away[:, k] - away[:, i]) * p - (away[:, j] - away[:, i]) * q)
    return np.divide(steps, across, out=np.zeros_like(steps), where=np.abs(across) > 1e-9)


def _on_pairs(away: Floats, units: Complexes) -> Complexes:
    """The shortest steps that make two contacts equally far: shape (n, pairs)."""
    i, j = PAIRS
    apart = units[:, i] - units[:, j]
    steps: Complexes = apart * ((away[:, j] - away[:, i]) / np.maximum(_squared(apart), 1e-12))
    return steps


def _dot(a: Complexes, b: Complexes) -> Floats:
    product: Floats = a.real * b.real + a.imag * b.imag
    return product
