"""The way through a web of triangles from end to end (or round a ring), and what hangs off beside it."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lint.geometry.medial_web import Web
from lint.values import dataclass

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Point = tuple[float, float]

# What hangs off the way is a corner, a burr or half of a forked end while it reaches no farther than this many
# times its own mouth or the bar's width, the larger. A smaller figure would take swallow tails for branches, a
# larger one would take stubs of other bars for corners.
BESIDE = 1.5

# At an end the way runs into one corner of it and the other hangs off: a fork of the end's own shape. It is one where
# what hangs off is over this share of what the way has still to go. A square end forks at 1, one sawn off at 45
# degrees at 0.25; one pointed on one side at 30 degrees is under it, and its point is the end.
END_FORK = 0.2

# And where the way has no more than this many bar widths to go: a fishtail three times as wide as its bar forks two
# widths from its end, a swallow tail has prongs of three.
END_REACH = 4.0


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Way:
    """The sides that the way crosses, in order: indices (n,) of the edge points at their left and right ends.
    `closed` where it runs round a hole; if not, `tips` are the two points of the edge that it led to."""

    left: Ints
    right: Ints
    closed: bool
    tips: tuple[int, int] = (-1, -1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Forked:
    """Where the area is more than one strip."""

    at: Point


@dataclass(slots=True)
class _Peeled:
    """What is left when leaf after leaf is taken off: for each triangle its two deepest leaf branches as
    (depth, first triangle), whether it is still there, and the order of taking off."""

    first: list[tuple[float, int]]
    second: list[tuple[float, int]]
    there: list[bool]


def way_through(web: Web, width: float) -> Way | Forked:
    """The longest way through the web, or round its one hole, if all else is beside it.

    `width` (mm) is the bar's. Forked where a branch hangs off that is more than a corner (`BESIDE`), or where
    the strips run round several holes.
    """
    middles = web.edge.points[web.corners].mean(axis=1)
    hops = _hops(web, middles)
    peeled = _peel(web.next_to, hops)
    ring = [t for t, there in enumerate(peeled.there) if there]
    path = _round(web, ring) if ring else _longest(peeled)
    if isinstance(path, int):
        return Forked(at=_place(middles[path]))
    along = _along(web, hops, path)
    body = _body(web, peeled, path, along, bool(ring), width)
    if isinstance(body, int):
        return Forked(at=_place(middles[body]))
    tips = (-1, -1) if ring else (_tip(web, path[0]), _tip(web, path[-1]))
    return _crossed(web, path[body.start : body.stop], bool(ring), tips)


def _hops(web: Web, middles: Floats) -> Floats:
    """From each triangle over each of its sides: how far apart the two middles are square to the side, mm. (The
    middles swing from hand to hand of the strip; square to the sides, the steps add up to its length.)"""
    sides = web.edge.points[np.roll(web.corners, -1, axis=1)] - web.edge.points[web.corners]
    over = middles[web.next_to] - middles[:, None]
    cross = over[..., 0] * sides[..., 1] - over[..., 1] * sides[..., 0]
    hops: Floats = np.abs(cross) / np.maximum(np.hypot(sides[..., 0], sides[..., 1]), 1e-300)
    return hops


def _place(point: Floats) -> Point:
    return float(point[0]), float(point[1])


def _peel(next_to: Ints, hops: Floats) -> _Peeled:
    count = len(next_to)
    first, second = [(0.0, -1)] * count, [(0.0, -1)] * count
    there, degree = [True] * count, (next_to >= 0).sum(axis=1).tolist()
    leaves = [t for t, n in enumerate(degree) if n <= 1]
    near_by, far = next_to.tolist(), hops.tolist()
    while leaves:
        leaf = leaves.pop()
        there[leaf] = False
        depth = first[leaf][0]
        for near, hop in zip(near_by[leaf], far[leaf], strict=True):
            if near < 0 or not there[near]:
                continue
            branch = (depth + hop, leaf)
            if branch > first[near]:
                first[near], branch = branch, first[near]
            second[near] = max(second[near], branch)
            degree[near] -= 1
            if degree[near] == 1:
                leaves.append(near)
    return _Peeled(first, second, there)


def _longest(peeled: _Peeled) -> list[int]:
    """The longest way through a web without holes: two deepest branches that meet."""
    both = [one[0] + other[0] for one, other in zip(peeled.first, peeled.second, strict=True)]
    top = both.index(max(both))
    one, other = _down(peeled, peeled.first[top][1]), _down(peeled, peeled.second[top][1])
    return [*reversed(one), top, *other]


def _down(peeled: _Peeled, start: int) -> list[int]:
    path = []
    while start >= 0:
        path.append(start)
        start = peeled.first[start][1]
    return path


def _round(web: Web, ring: list[int]) -> list[int] | int:
    """The triangles round the hole in order; where there is more than one way round, the triangle that forks."""
    staying = np.zeros(len(web.next_to), dtype=bool)
    staying[ring] = True
    kept = np.where(staying[web.next_to] & (web.next_to >= 0), web.next_to, -1)
    forks = np.flatnonzero(staying & ((kept >= 0).sum(axis=1) > 2))
    if len(forks):
        return int(forks[0])
    near = kept.tolist()
    path, before, here = [ring[0]], -1, ring[0]
    while True:
        onward = [n for n in near[here] if n >= 0 and n != before]
        before, here = here, onward[0]
        if here == ring[0]:
            return path
        path.append(here)


def _body(web: Web, peeled: _Peeled, path: list[int], along: list[float], closed: bool, width: float) -> slice | int:
    """The part of the way between the forks of its ends; or the triangle from which the deepest branch hangs."""
    start, stop, worst, deepest = 0, len(path), -1, 0.0
    forks = (web.next_to[path] >= 0).sum(axis=1) > 2
    for place in np.flatnonzero(forks).tolist():
        t = path[place]
        depth, root = _beside(peeled, t, path[max(place - 1, 0)], path[(place + 1) % len(path)])
        if root < 0:
            continue
        back, fore = along[place], along[-1] - along[place]
        if not closed and min(back, fore) <= END_REACH * width and depth > END_FORK * min(back, fore):
            start, stop = (place, stop) if back < fore else (start, min(stop, place + 1))
        elif depth > max(deepest, BESIDE * max(width, _mouth(web, t, root))):
            worst, deepest = t, depth
    return slice(start, stop) if worst < 0 else worst


def _along(web: Web, hops: Floats, path: list[int]) -> list[float]:
    """How far along the way each of its triangles lies, mm."""
    here, onward = np.array(path[:-1], dtype=np.int64), np.array(path[1:], dtype=np.int64)
    over = hops[here, (web.next_to[here] == onward[:, None]).argmax(axis=1)]
    along: list[float] = np.concatenate([[0.0], np.cumsum(over)]).tolist()
    return along


def _beside(peeled: _Peeled, t: int, before: int, after: int) -> tuple[float, int]:
    """The deepest branch that hangs off a triangle of the way, (0, -1) where none does."""
    return next((b for b in (peeled.first[t], peeled.second[t]) if b[1] not in (before, after)), (0.0, -1))


def _mouth(web: Web, t: int, start: int) -> float:
    side = int(np.flatnonzero(web.next_to[t] == start)[0])
    a, b = web.edge.points[web.corners[t, [side, (side + 1) % 3]]]
    return float(np.hypot(*(b - a)))


def _tip(web: Web, ear: int) -> int:
    """The corner of a last triangle that lies over against the way it hangs on."""
    side = int(web.next_to[ear].argmax())
    return int(web.corners[ear, (side + 2) % 3])


def _crossed(web: Web, path: list[int], closed: bool, tips: tuple[int, int]) -> Way:
    here = np.array(path)
    onward = np.roll(here, -1) if closed else here[1:]
    here = here if closed else here[:-1]
    side = (web.next_to[here] == onward[:, None]).argmax(axis=1)
    return Way(left=web.corners[here, side], right=web.corners[here, (side + 1) % 3], closed=closed, tips=tips)
