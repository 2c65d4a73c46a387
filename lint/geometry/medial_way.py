"""The way through a web of triangles from end to end (or round a ring), and what hangs off beside it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lint.geometry.medial_web import Web

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Point = tuple[float, float]

# What hangs off the way is a corner, a burr or half of a forked end while it reaches no farther than this many
# times its own mouth or the bar's width, the larger. A smaller figure would take swallow tails for branches, a
# larger one would take stubs of other bars for corners.
BESIDE = 1.5


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Way:
    """The sides that the way crosses, in order: indices (n,) of the edge points at their left and right ends.
    `closed` where it runs round a hole."""

    left: Ints
    right: Ints
    closed: bool


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
    hops = np.hypot(*np.moveaxis(middles[web.next_to] - middles[:, None], -1, 0))
    peeled = _peel(web.next_to.tolist(), hops.tolist())
    ring = [t for t, there in enumerate(peeled.there) if there]
    path = _round(web, ring) if ring else _longest(peeled)
    if isinstance(path, int):
        return Forked(at=_place(middles[path]))
    branch = _branch(web, peeled, path, bool(ring), width)
    if branch is not None:
        return Forked(at=_place(middles[branch]))
    return _crossed(web, path, bool(ring))


def _place(point: Floats) -> Point:
    return float(point[0]), float(point[1])


def _peel(next_to: list[list[int]], hops: list[list[float]]) -> _Peeled:
    none = (0.0, -1)
    count = len(next_to)
    peeled = _Peeled([none] * count, [none] * count, [True] * count)
    degree = [sum(n >= 0 for n in sides) for sides in next_to]
    leaves = [t for t, n in enumerate(degree) if n <= 1]
    while leaves:
        leaf = leaves.pop()
        peeled.there[leaf] = False
        for near, hop in zip(next_to[leaf], hops[leaf], strict=True):
            if near >= 0 and peeled.there[near]:
                _hang(peeled, near, (peeled.first[leaf][0] + hop, leaf))
                degree[near] -= 1
                if degree[near] == 1:
                    leaves.append(near)
    return peeled


def _hang(peeled: _Peeled, on: int, branch: tuple[float, int]) -> None:
    if branch > peeled.first[on]:
        peeled.first[on], branch = branch, peeled.first[on]
    peeled.second[on] = max(peeled.second[on], branch)


def _longest(peeled: _Peeled) -> list[int]:
    """The longest way through a web without holes: two deepest branches that meet."""
    top = max(range(len(peeled.first)), key=lambda t: peeled.first[t][0] + peeled.second[t][0])
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


def _branch(web: Web, peeled: _Peeled, path: list[int], closed: bool, width: float) -> int | None:
    """The triangle of the way from which the deepest branch hangs that is no mere corner."""
    on_way = set(path)
    worst, deepest = None, 0.0
    for t in path:
        for depth, start in (peeled.first[t], peeled.second[t]):
            if start < 0 or start in on_way:
                continue
            if depth > BESIDE * max(width, _mouth(web, t, start)) and depth > deepest:
                worst, deepest = t, depth
    return worst


def _mouth(web: Web, t: int, start: int) -> float:
    side = int(np.flatnonzero(web.next_to[t] == start)[0])
    a, b = web.edge.points[web.corners[t, [side, (side + 1) % 3]]]
    return float(np.hypot(*(b - a)))


def _crossed(web: Web, path: list[int], closed: bool) -> Way:
    here = np.array(path)
    onward = np.roll(here, -1) if closed else here[1:]
    here = here if closed else here[:-1]
    side = (web.next_to[here] == onward[:, None]).argmax(axis=1)
    return Way(left=web.corners[here, side], right=web.corners[here, (side + 1) % 3], closed=closed)
