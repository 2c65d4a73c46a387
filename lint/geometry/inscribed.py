"""The largest circle in each of many shapes: found coarsely, polished to its contacts, then proved."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.values import dataclass

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Shapes = NDArray[np.object_]

# The first search stops within this share of the shape's size: enough to land on the right hill, and cheap on the
# long level ridge of a slot, where the search for the last hundredth would try every place along it.
COARSE = 0.02

# Nor is it ever finer than this, mm: on a sliver a share of its size would be less than anybody can draw.
FINEST = 0.04

# Contacts are looked for in this many directions about the centre, the nearest in each. Fewer would merge two
# contacts into one and leave the circle short.
SECTORS = 10

# So many of them, the nearest, are tried in twos and threes as what holds the circle: the cost is this number cubed.
HOLDING = 6
TRIPLES = np.array(list(combinations(range(HOLDING), 3)))
PAIRS = np.array(list(combinations(range(HOLDING), 2)))

# Climbing stops when a step gains less than this (mm), or after so many steps.
STILL = 1e-9
ROUNDS = 10

# Two contacts hold a circle between them where their directions differ from opposite by less than 5 degrees.
FACING = -0.996

# Shapes of more points than this are always proved by the search, whose number of steps is bounded; shrinking a
# jagged shape can take the square of its points.
MANY = 3000


def inscribed(shapes: Sequence[Any], accuracy: float) -> Floats:
    """(x, y, radius) of the largest circle in each shape, none of them empty: shape (n, 3), mm.

    The radius is at most `accuracy` under the true one and never over it by more than rounding. A coarse search
    (GEOS: cells halved, best first) is climbed to the top of its hill, where three contacts, or two that face each
    other, hold the circle; so a slot gives its width to rounding. Then the proof that no other hill is higher: the
    fine search, or, where the circle is held by two walls (the fine search would try every place along such a
    slot), the shape shrunk by the radius found plus `accuracy`, which must be empty.
    """
    every = np.empty(len(shapes), dtype=object)
    every[:] = shapes
    best, slots = polished(every, _searched(every, _coarse(every)))
    slots &= shapely.get_num_coordinates(every) < MANY
    _proved_by_search(every, best, np.flatnonzero(~slots), accuracy)
    _proved_by_shrinking(every, best, np.flatnonzero(slots), accuracy)
    return best


def _proved_by_search(shapes: Shapes, best: Floats, which: NDArray[np.int64], accuracy: float) -> None:
    which = which[_coarse(shapes[which]) > accuracy]
    centres = _searched(shapes[which], np.full(len(which), accuracy))
    higher = _clear(shapes[which], centres) > best[which, 2] + STILL
    which, centres = which[higher], centres[higher]
    _keep_better(shapes, best, which, centres)


def _proved_by_shrinking(shapes: Shapes, best: Floats, which: NDArray[np.int64], accuracy: float) -> None:
    for _ in range(12):
        left = shapely.buffer(shapes[which], -(best[which, 2] + 0.8 * accuracy), quad_segs=32)
        held = ~shapely.is_empty(left)
        which, left = which[held], left[held]
        if not len(which):
            break
        which = _keep_better(shapes, best, which, _searched(left, _coarse(left)))


def _keep_better(shapes: Shapes, best: Floats, which: NDArray[np.int64], centres: Floats) -> NDArray[np.int64]:
    """Climbs from new centres, keeps what is better, and says which those were."""
    if not len(which):
        return which
    better, _ = polished(shapes[which], centres)
    gains = better[:, 2] > best[which, 2]
    best[which[gains]] = better[gains]
    gained: NDArray[np.int64] = which[gains]
    return gained


def _coarse(shapes: Shapes) -> Floats:
    """How near the first search comes, by the shorter side of each shape's extent, mm."""
    bounds = shapely.bounds(shapes)
    shorter: Floats = np.minimum(bounds[:, 2] - bounds[:, 0], bounds[:, 3] - bounds[:, 1])
    return np.maximum(COARSE * shorter, FINEST)


def _searched(shapes: Shapes, tolerance: Floats) -> Floats:
    """A centre in each shape whose circle is within `tolerance` mm of the largest."""
    with np.errstate(all="ignore"):  # GEOS divides by what may be zero on its way, and minds the result itself
        found = shapely.maximum_inscribed_circle(shapes, tolerance=tolerance)
    centres: Floats = shapely.get_coordinates(found)[::2]
    return centres


def _clear(shapes: Shapes, centres: Floats) -> Floats:
    return np.asarray(shapely.distance(shapely.boundary(shapes), shapely.points(centres)), dtype=np.float64)


@dataclass(frozen=True, slots=True, eq=False)
class _Edges:
    """The boundary chords of many shapes in one array, each knowing its shape, and where each shape's begin. Points
    are complex numbers, which are quicker to work with than rows of two."""

    start: Complexes
    along: Complexes
    square: Floats
    of: NDArray[np.int64]
    first: NDArray[np.int64]

    @classmethod
    def round(cls, shapes: Shapes) -> _Edges:
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

    def of_those(self, kept: NDArray[np.bool_]) -> _Edges:
        """The chords of some of the shapes, numbered anew."""
        on = kept[self.of]
        of = (np.cumsum(kept) - 1)[self.of[on]]
        first = np.searchsorted(of, np.arange(np.count_nonzero(kept)))
        return _Edges(self.start[on], self.along[on], self.square[on], of, first)

    def feet(self, centres: Floats) -> tuple[Complexes, Floats]:
        """From the nearest place of each chord to its shape's centre (n, 2): the vectors, and the distances."""
        out = (centres[:, 0] + 1j * centres[:, 1])[self.of] - self.start
        out -= np.clip((out * self.along.conj()).real / self.square, 0, 1) * self.along
        return out, np.sqrt(_squared(out))


def _squared(z: Complexes) -> Floats:
    squares: Floats = z.real * z.real + z.imag * z.imag
    return squares


def polished(shapes: Shapes, centres: Floats) -> tuple[Floats, NDArray[np.bool_]]:
    """(x, y, radius) after climbing from each centre, inside its shape, to the top of its hill: shape (n, 3); and
    whether two walls facing each other hold it there."""
    best = np.column_stack([centres, np.zeros(len(shapes))])
    slots = np.zeros(len(shapes), dtype=bool)
    trust = np.full(len(shapes), np.inf)
    on = np.arange(len(shapes))
    edges = _Edges.round(shapes)
    out, far = edges.feet(best[:, :2])
    best[:, 2] = np.minimum.reduceat(far, edges.first)
    for turn in range(ROUNDS):
        away, units = _contacts(edges, out, far, turn)
        steps, slots[on] = _steps(away, units, np.minimum(trust[on], 0.2 * best[on, 2]))
        sizes = np.hypot(steps[:, 0], steps[:, 1])
        out_there, far_there = edges.feet(best[on, :2] + steps)
        radii = np.minimum.reduceat(far_there, edges.first)
        gain = radii - best[on, 2]
        up = gain > 0
        best[on[up]] = np.column_stack([best[on, :2] + steps, radii])[up]
        trust[on[~up]] = sizes[~up] / 4
        lively = (sizes > STILL) & ((gain > STILL) | ~up)
        if not lively.any() or turn == ROUNDS - 1:
            break
        moved, still_on = up[edges.of], lively[edges.of]
        out = np.where(moved, out_there, out)[still_on]
        far = np.where(moved, far_there, far)[still_on]
        on, edges = on[lively], edges.of_those(lively)
    return best, slots


def _steps(away: Floats, units: Floats, trust: Floats) -> tuple[Floats, NDArray[np.bool_]]:
    """The step from each centre that gains most while the contacts are taken as straight: shape (n, 2); and whether
    it is two facing contacts that stop it."""
    rows = np.arange(len(away))[:, None]
    nearest = np.argsort(away, axis=1)[:, :HOLDING]
    held, ways = away[rows, nearest], units[rows, nearest]
    tries = np.concatenate([np.zeros((len(away), 1, 2)), _on_pairs(held, ways), _on_triples(held, ways)], axis=1)
    sizes = np.hypot(tries[..., 0], tries[..., 1])
    tries *= np.minimum(1, trust[:, None] / np.maximum(sizes, 1e-300))[..., None]
    promise = (away[:, None] + tries @ units.transpose(0, 2, 1)).min(axis=2)
    best = promise.argmax(axis=1)
    least = held[:, :1]
    facing = np.einsum("nka,nka->nk", ways[:, PAIRS[:, 0]], ways[:, PAIRS[:, 1]]) < FACING
    level = np.abs(held[:, PAIRS[:, 0]] + held[:, PAIRS[:, 1]] - 2 * least) < 0.02 * least
    return tries[rows[:, 0], best], (facing & level).any(axis=1)


def _contacts(edges: _Edges, out: Complexes, far: Floats, turn: int) -> tuple[Floats, Floats]:
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
    return away.reshape(n, SECTORS), units.view(np.float64).reshape(n, SECTORS, 2)


def _on_triples(away: Floats, units: Floats) -> Floats:
    """Steps that make three contacts equally far: shape (n, triples, 2). Where there is none, no step."""
    a, b, c = (units[:, TRIPLES[:, k]] for k in range(3))
    da, db, dc = (away[:, TRIPLES[:, k]] for k in range(3))
    p, q = a - b, a - c
    return _solved(p, q, db - da, dc - da)


def _on_pairs(away: Floats, units: Floats) -> Floats:
    """The shortest steps that make two contacts equally far: shape (n, pairs, 2)."""
    apart = units[:, PAIRS[:, 0]] - units[:, PAIRS[:, 1]]
    more = away[:, PAIRS[:, 1]] - away[:, PAIRS[:, 0]]
    steps: Floats = apart * (more / np.maximum((apart**2).sum(axis=2), 1e-12))[..., None]
    return steps


def _solved(p: Floats, q: Floats, right: Floats, other: Floats) -> Floats:
    """The vectors v with p . v = right and q . v = other; zero where p and q are parallel."""
    det = p[..., 0] * q[..., 1] - p[..., 1] * q[..., 0]
    fine = np.abs(det) > 1e-9
    det = np.where(fine, det, 1.0)
    x = (right * q[..., 1] - other * p[..., 1]) / det
    y = (other * p[..., 0] - right * q[..., 0]) / det
    return np.where(fine[..., None], np.stack([x, y], axis=-1), 0.0)
