"""Room on the page: where a balloon or a label can stand without covering another, the metal or the page's edge.

All in page units. Boxes already set are never covered; metal is covered only where nothing else is left. Leaders do not
cross one another, nor run through a box.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Point = tuple[float, float]
Rect = tuple[float, float, float, float]  # left, top, right, bottom

_STEPS = (3.6, 4.6, 6, 8, 10, 13, 17, 22, 28, 36, 46, 60, 80, 110)  # sheet mm from the place to the box
_WAYS = 24  # directions tried at each step; more finds tighter spots, at more time
_MOST_TRIED = 150  # leaders looked at before a label is given up
_CELL = 0.8  # sheet mm of the grid that holds the metal


@dataclass(slots=True)
class Room:
    """`bounds` is the page left, top, right, bottom; `unit` page units for a sheet mm."""

    bounds: Rect
    unit: float
    boxes: list[Rect] = field(default_factory=list)
    leaders: list[tuple[Point, Point]] = field(default_factory=list)
    _taken: Floats = field(init=False)
    _sums: Floats | None = field(init=False, default=None)
    _cell: float = field(init=False)

    def __post_init__(self) -> None:
        width, height = self.bounds[2] - self.bounds[0], self.bounds[3] - self.bounds[1]
        self._cell = max(_CELL * self.unit, max(width, height) / 500)
        self._taken = np.zeros((math.ceil(height / self._cell) + 1, math.ceil(width / self._cell) + 1))

    def take_line(self, points: Floats, width: float) -> None:
        """Mark the metal, or a stroke, along a line as taken."""
        if len(points) < 2:
            return
        steps = np.hypot(*np.diff(points, axis=0).T)
        along = np.concatenate([[0.0], np.cumsum(steps)])
        count = min(20_000, int(along[-1] / (self._cell * 0.7)) + 2)
        where = np.linspace(0.0, along[-1], count)
        line = np.column_stack([np.interp(where, along, points[:, i]) for i in (0, 1)])
        cells = ((line - np.asarray(self.bounds[:2])) / self._cell).astype(np.int64)
        self._stamp(cells, math.ceil(min(width / 2 / self._cell, sum(self._taken.shape))))

    def take_disc(self, middle: Point, radius: float) -> None:
        """Mark a disc as covered only where nothing else is left."""
        rows, columns = self._taken.shape
        across = (np.arange(columns) + 0.5) * self._cell + self.bounds[0] - middle[0]
        down = (np.arange(rows) + 0.5) * self._cell + self.bounds[1] - middle[1]
        self._taken[(across[None, :] ** 2 + down[:, None] ** 2) <= radius**2] = 1.0
        self._sums = None

    def take_box(self, box: Rect) -> None:
        """Mark a box as covered only where nothing else is left (words of the drawing)."""
        x0, y0, x1, y1 = (int(v) for v in self._cells(np.asarray([box]))[0])
        self._taken[y0 : y1 + 1, x0 : x1 + 1] = 1.0
        self._sums = None

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
            best = self._best(at, size, anywhere, leader) or self._best(at, size, anywhere, False)
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

    def _stamp(self, cells: NDArray[np.int64], reach: int) -> None:
        """Mark a disc of `reach` cells about each cell as taken, row by row: what begins and ends in a row is
        counted, and summed along it."""
        rows, columns = self._taken.shape
        middles = np.unique(cells, axis=0)
        edges = np.zeros((rows, columns + 1))
        for down in range(-reach, reach + 1):
            half = math.floor(math.sqrt((reach + 0.3) ** 2 - down**2))
            row, column = middles[:, 1] + down, middles[:, 0]
            on = (row >= 0) & (row < rows) & (column + half >= 0) & (column - half < columns)
            np.add.at(edges, (row[on], np.maximum(column[on] - half, 0)), 1.0)
            np.add.at(edges, (row[on], np.minimum(column[on] + half + 1, columns)), -1.0)
        self._taken[np.cumsum(edges, axis=1)[:, :columns] > 0] = 1.0
        self._sums = None

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

    def _best(self, at: Point, size: Point, centres: Floats, leader: bool) -> Point | None:
        if not len(centres):
            return None
        centres = centres[self._free(centres, size)]
        if not len(centres):
            return None
        far = np.hypot(centres[:, 0] - at[0], centres[:, 1] - at[1]) / self.unit
        order = np.argsort(far + 120.0 * self._covered(centres, size), kind="stable")
        for index in order[:_MOST_TRIED]:
            middle = (float(centres[index, 0]), float(centres[index, 1]))
            if not leader or self._clear(at, middle, size):
                return middle
        return None

    def _set(self, at: Point, middle: Point, size: Point, leader: bool) -> None:
        self.boxes.append(rect(middle, size))
        if leader:
            self.leaders.append((at, edge(at, middle, size)))

    def _free(self, centres: Floats, size: Point) -> NDArray[np.bool_]:
        half, gap = np.asarray(size) / 2, 0.6 * self.unit
        low, high = centres - half, centres + half
        left, top, right, bottom = self.bounds
        free = (low[:, 0] >= left) & (low[:, 1] >= top) & (high[:, 0] <= right) & (high[:, 1] <= bottom)
        if self.boxes:
            boxes = np.asarray(self.boxes)
            apart = (low[:, None, 0] > boxes[None, :, 2] + gap) | (high[:, None, 0] < boxes[None, :, 0] - gap)
            apart |= (low[:, None, 1] > boxes[None, :, 3] + gap) | (high[:, None, 1] < boxes[None, :, 1] - gap)
            free &= apart.all(axis=1)
        if self.leaders:
            dots = np.concatenate([_dots(a, b, 1.5 * self.unit) for a, b in self.leaders])
            inside = (dots[None, :, :] > (low - gap)[:, None, :]) & (dots[None, :, :] < (high + gap)[:, None, :])
            free &= ~np.any(np.all(inside, axis=2), axis=1)
        return free

    def _covered(self, centres: Floats, size: Point) -> Floats:
        """The share of each box that covers metal."""
        if self._sums is None:
            self._sums = np.pad(self._taken.cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))
        half = np.asarray(size) / 2
        low, high = self._cells(centres - half), self._cells(centres + half) + 1
        sums = self._sums
        total = sums[high[:, 1], high[:, 0]] - sums[low[:, 1], high[:, 0]]
        total += sums[low[:, 1], low[:, 0]] - sums[high[:, 1], low[:, 0]]
        share: Floats = total / np.maximum(1, (high - low).prod(axis=1))
        return share

    def _cells(self, points: Floats) -> NDArray[np.int64]:
        flat = points.reshape(-1, 2)
        rows, columns = self._taken.shape
        cells = ((flat - np.asarray(self.bounds[:2])) / self._cell).astype(np.int64)
        held: NDArray[np.int64] = np.clip(cells, 0, np.asarray([columns - 1, rows - 1])).reshape(points.shape)
        return held

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
