"""Room on the page: where a balloon or a label can stand without covering another, the metal or the page's edge.

All in page units. Boxes already set are never covered; metal is covered only where nothing else is left, and the
drawing's own words only by a balloon that has no other place on the page. Leaders do not cross one another, nor run
through a box.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from lint.report.markup.grid import Floats, Grid, Point, Rect

_STEPS = (3.6, 4.6, 6, 8, 10, 13, 17, 22, 28, 36, 46, 60, 80, 110)  # sheet mm from the place to the box
_WAYS = 24  # directions tried at each step; more finds tighter spots, at more time
_MOST_TRIED = 150  # leaders looked at before a label is given up
_CELL = 0.8  # sheet mm of the grid that holds the metal


@dataclass(slots=True)
class Room:
    """`bounds` is the page left, top, right, bottom; `unit` page units for a sheet mm. `metal` is covered only where
    nothing else is left, and so are marks; `words`, the drawing's own, only by what must stand at any cost."""

    bounds: Rect
    unit: float
    boxes: list[Rect] = field(default_factory=list)
    leaders: list[tuple[Point, Point]] = field(default_factory=list)
    metal: Grid = field(init=False)
    words: Grid = field(init=False)

    def __post_init__(self) -> None:
        width, height = self.bounds[2] - self.bounds[0], self.bounds[3] - self.bounds[1]
        cell = max(_CELL * self.unit, max(width, height) / 500)
        self.metal, self.words = Grid(self.bounds, cell), Grid(self.bounds, cell)

    def place(
        self, at: Point, size: Point, *, reach: float = 1e9, leader: bool = True, cover: float = 1.0
    ) -> Point | None:
        """The middle of a free box of `size` near `at`, its box and leader set; None where there is none within
        `reach` sheet mm that covers metal with at most the share `cover` of its area."""
        tried = self._around(at, size, reach)
        tried = tried[self._covered(tried, size) <= cover] if cover < 1 else tried
        best = self._best(at, size, tried, leader)
        if best is None and reach > 1e8:
            anywhere = self._everywhere(size)
            ways = ((leader, False), (leader, True), (False, True))
            best = next(filter(None, (self._best(at, size, anywhere, *way) for way in ways)), None)
        if best is not None:
            self._set(at, best, size, leader)
        return best

    def try_at(self, middles: list[Point], size: Point, clear: bool = True) -> Point | None:
        """The first of `middles` where a box of `size` covers no box (and, if `clear`, no metal), set."""
        centres = np.asarray(middles, dtype=np.float64)
        free = self._free(centres, size)
        if clear:
            free &= self._covered(centres, size) < 0.02
        if not free.any():
            return None
        x, y = centres[int(np.argmax(free))]
        self._set((float(x), float(y)), (float(x), float(y)), size, False)
        return float(x), float(y)

    def on_words(self, at: Point) -> bool:
        """Whether a small mark at a place would hide the drawing's own words."""
        middle, half = np.asarray([at]), 1.0 * self.unit
        return bool(self.words.share(middle - half, middle + half)[0] > 0.7)

    def past_words(self, at: Point, to: Point) -> Point:
        """Where the way from `at` leaves the drawing's own words on which `at` stands; `at` where it stands on none."""
        dots = _dots(at, to, 0.4 * self.unit)
        over = self.words.taken(dots)
        if not self.on_words(at) or over.all():
            return at
        x, y = dots[int(np.argmin(over))]
        return float(x), float(y)

    def _around(self, at: Point, size: Point, reach: float) -> Floats:
        ways = np.arange(_WAYS) * (2 * math.pi / _WAYS) - math.pi / 4
        ux, uy = np.cos(ways), np.sin(ways)
        half = np.minimum(size[0] / 2 / np.maximum(np.abs(ux), 1e-9), size[1] / 2 / np.maximum(np.abs(uy), 1e-9))
        steps = np.asarray([s for s in _STEPS if s <= reach]) * self.unit
        far = steps[:, None] + half[None, :]
        return np.column_stack([(at[0] + far * ux).ravel(), (at[1] + far * uy).ravel()])

    def _everywhere(self, size: Point) -> Floats:
        left, top, right, bottom = self.bounds
        xs = np.arange(left + size[0] / 2, right - size[0] / 2, max(2 * self.unit, (right - left) / 80))
        ys = np.arange(top + size[1] / 2, bottom - size[1] / 2, max(2 * self.unit, (bottom - top) / 80))
        grid = np.meshgrid(xs, ys)
        return np.column_stack([grid[0].ravel(), grid[1].ravel()])

    def _best(self, at: Point, size: Point, centres: Floats, leader: bool, over_words: bool = False) -> Point | None:
        """The nearest free place, of some equally near the first; one whose leader runs over no words of the drawing,
        if there is any."""
        if len(centres):
            centres = centres[self._free(centres, size, over_words)]
        if not len(centres):
            return None
        far = np.hypot(centres[:, 0] - at[0], centres[:, 1] - at[1]) / self.unit
        cost = np.round(far + 120.0 * self._covered(centres, size), 1)
        order = np.argsort(cost, kind="stable")
        second = None
        for index in order[:_MOST_TRIED]:
            middle = (float(centres[index, 0]), float(centres[index, 1]))
            if not leader:
                return middle
            if self._clear(at, middle, size):
                beyond = _dots(at, edge(at, middle, size), self.unit)[2:]  # the words that it points to may lie close
                if not self.words.taken(beyond).any():
                    return middle
                second = second or middle
        return second

    def _set(self, at: Point, middle: Point, size: Point, leader: bool) -> None:
        self.boxes.append(rect(middle, size))
        if leader:
            self.leaders.append((at, edge(at, middle, size)))

    def _free(self, centres: Floats, size: Point, over_words: bool = False) -> NDArray[np.bool_]:
        half, gap = np.asarray(size) / 2, 0.6 * self.unit
        low, high = centres - half, centres + half
        left, top, right, bottom = self.bounds
        free = (low[:, 0] >= left) & (low[:, 1] >= top) & (high[:, 0] <= right) & (high[:, 1] <= bottom)
        if not over_words:
            free &= self.words.share(low, high) == 0.0
        index = np.flatnonzero(free)
        if len(index):
            free[index] = self._apart(low[index] - gap, high[index] + gap)
        return free

    def _apart(self, low: Floats, high: Floats) -> NDArray[np.bool_]:
        """Which boxes, from upper left to lower right, touch nothing that is set."""
        (left, top), (right, bottom) = low.min(axis=0), high.max(axis=0)
        apart = np.ones(len(low), dtype=np.bool_)
        boxes = np.asarray(self.boxes).reshape(-1, 4)
        near = (boxes[:, 2] >= left) & (boxes[:, 0] <= right) & (boxes[:, 3] >= top) & (boxes[:, 1] <= bottom)
        for x0, y0, x1, y1 in boxes[near]:
            apart &= (low[:, 0] > x1) | (high[:, 0] < x0) | (low[:, 1] > y1) | (high[:, 1] < y0)
        dots = np.concatenate([np.empty((0, 2)), *(_dots(a, b, 1.5 * self.unit) for a, b in self.leaders)])
        for x, y in dots[np.all((dots > (left, top)) & (dots < (right, bottom)), axis=1)]:
            apart &= (low[:, 0] >= x) | (high[:, 0] <= x) | (low[:, 1] >= y) | (high[:, 1] <= y)
        return apart

    def _covered(self, centres: Floats, size: Point) -> Floats:
        """The share of each box that covers metal."""
        half = np.asarray(size) / 2
        return self.metal.share(centres - half, centres + half)

    def _clear(self, at: Point, middle: Point, size: Point) -> bool:
        end = edge(at, middle, size)
        if any(crossing(at, end, a, b) for a, b in self.leaders):
            return False
        if not self.boxes:
            return True
        dots = _dots(at, end, self.unit)[1:]
        boxes = np.asarray(self.boxes)
        inside = (dots[:, None, 0] > boxes[:, 0]) & (dots[:, None, 0] < boxes[:, 2])
        inside &= (dots[:, None, 1] > boxes[:, 1]) & (dots[:, None, 1] < boxes[:, 3])
        return not inside.any()


def rect(middle: Point, size: Point) -> Rect:
    """The box of `size` about its middle."""
    return middle[0] - size[0] / 2, middle[1] - size[1] / 2, middle[0] + size[0] / 2, middle[1] + size[1] / 2


def edge(at: Point, middle: Point, size: Point) -> Point:
    """Where the straight line from `at` to the middle of a box meets the box."""
    dx, dy = at[0] - middle[0], at[1] - middle[1]
    share = min(size[0] / 2 / abs(dx) if dx else math.inf, size[1] / 2 / abs(dy) if dy else math.inf, 1.0)
    return middle[0] + dx * share, middle[1] + dy * share


def crossing(a: Point, b: Point, c: Point, d: Point) -> bool:
    """True where the segments ab and cd cross (a shared end is no crossing)."""

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


def _dots(a: Point, b: Point, step: float) -> Floats:
    count = min(400, int(math.dist(a, b) / step) + 2)
    share = np.linspace(0.0, 1.0, count)[:, None]
    return np.asarray(a) * (1 - share) + np.asarray(b) * share
