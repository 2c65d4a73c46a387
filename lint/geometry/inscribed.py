"""The largest circle in each of many shapes: found coarsely, polished to its contacts, then proved."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.climb import STILL, Edges, climbed
from lint.geometry.combined import widened
from lint.geometry.larger import held_within, larger

Floats = NDArray[np.float64]
Shapes = NDArray[np.object_]

# The first search stops within this share of the shape's size: enough to land on the right hill, and cheap on the
# long level ridge of a slot, where the search for the last hundredth would try every place along it.
COARSE = 0.03

# Nor is it ever finer than this, mm: on a sliver a share of its size would be less than anybody can draw.
FINEST = 0.04

# So many shapes are worked at once: more are no quicker, and the indexes of their edges take memory.
AT_ONCE = 500

# A circle whose contacts hold it within less than this share of its radius lies between two walls that face each other,
# as in a slot or a lens: cells along the middle would be ruled out late.
FIRM = 0.3

# So many hills of one shape are climbed, each higher than the last, before another proof is asked.
CLIMBS = 12

# Slots of more points than this are proved by a fine search, whose number of steps is bounded; shrinking a jagged
# shape can take the square of its points.
MANY = 3000

# So are shapes about more islands than this: round each the shrunk shape has a circle of its own to be joined (400
# bars that touch nothing: 0.1 s against 3.5 s).
ISLANDS = 30


def inscribed(shapes: Sequence[Any], accuracy: float) -> Floats:
    """(x, y, radius) of the largest circle in each shape, none of them empty: shape (n, 3), mm.

    The radius is at most `accuracy` under the true one and never over it by more than rounding. A coarse search
    (GEOS: cells halved, best first) is climbed to the top of its hill, where three contacts, or two that face each
    other, hold the circle; so a slot gives its width to rounding. Then the proof that no other hill is higher
    (`lint.geometry.larger`). Of a slot, whose every place is as good, the shape shrunk by the radius found plus
    `accuracy` must be empty.
    """
    every = np.empty(len(shapes), dtype=object)
    every[:] = shapes
    blocks = [_inscribed(every[k : k + AT_ONCE], accuracy) for k in range(0, len(every), AT_ONCE)]
    return np.concatenate([np.zeros((0, 3)), *blocks])


def _inscribed(shapes: Shapes, accuracy: float) -> Floats:
    edges = Edges.round(shapes)
    best = climbed(edges, _searched(shapes, _coarse(shapes)))
    level = _proved_by_cells(shapes, edges, best, accuracy)
    islands = shapely.get_num_interior_rings(shapes[level])
    many = (shapely.get_num_coordinates(shapes[level]) >= MANY) | (islands > ISLANDS)
    _proved_by_search(shapes, best, level[many], accuracy)
    _proved_by_shrinking(shapes, best, level[~many], accuracy)
    return best


def _proved_by_cells(shapes: Shapes, edges: Edges, best: Floats, accuracy: float) -> NDArray[np.int64]:
    """Climbs again wherever a larger circle shows; what is left are the shapes that cells do not decide."""
    which = np.arange(len(shapes))
    left = []
    for _ in range(CLIMBS):
        held = _held(edges, best[which], accuracy)
        firm = held >= FIRM * best[which, 2]
        left.append(which[~firm])
        which, held = which[firm], held[firm]
        found = larger(shapes[which], best[which], held, accuracy)
        left.append(which[found.undecided])
        which = _keep_better(shapes, best, which[found.which], found.centres)
        if not len(which):
            break
        edges = Edges.round(shapes[which])
    return np.concatenate([which, *left])


def _held(edges: Edges, best: Floats, accuracy: float) -> Floats:
    out, far = edges.feet(best[:, 0] + 1j * best[:, 1])
    touching = far <= best[edges.of, 2] + accuracy
    return held_within(best, np.angle(out[touching]), edges.of[touching])


def _proved_by_search(shapes: Shapes, best: Floats, which: NDArray[np.int64], accuracy: float) -> None:
    centres = _searched(shapes[which], np.full(len(which), accuracy))
    higher = _clear(shapes[which], centres) > best[which, 2] + STILL
    _keep_better(shapes, best, which[higher], centres[higher])


def _proved_by_shrinking(shapes: Shapes, best: Floats, which: NDArray[np.int64], accuracy: float) -> None:
    for _ in range(CLIMBS):
        left = widened(shapes[which], -(best[which, 2] + 0.8 * accuracy), quad_segs=32)
        held = ~shapely.is_empty(left)
        which, left = which[held], left[held]
        if not len(which):
            break
        which = _keep_better(shapes, best, which, _searched(left, _coarse(left)))


def _keep_better(shapes: Shapes, best: Floats, which: NDArray[np.int64], centres: Floats) -> NDArray[np.int64]:
    """Climbs from new centres, keeps what is better, and says which those were."""
    if not len(which):
        return which
    better = climbed(Edges.round(shapes[which]), centres)
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
