"""A page in small cells, each free or taken: what share of a box is taken is known at once."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Point = tuple[float, float]
Rect = tuple[float, float, float, float]  # left, top, right, bottom


@dataclass(slots=True)
class Grid:
    """`bounds` is the page left, top, right, bottom, `cell` the side of a cell; all in page units."""

    bounds: Rect
    cell: float
    _taken: Floats = field(init=False)
    _sums: Floats | None = field(init=False, default=None)

    def __post_init__(self) -> None:
        width, height = self.bounds[2] - self.bounds[0], self.bounds[3] - self.bounds[1]
        self._taken = np.zeros((math.ceil(height / self.cell) + 1, math.ceil(width / self.cell) + 1))

    def take_line(self, points: Floats, width: float) -> None:
        """Take the cells under a stroke through points, shape (n, 2)."""
        if len(points) < 2:
            return
        steps = np.hypot(*np.diff(points, axis=0).T)
        along = np.concatenate([[0.0], np.cumsum(steps)])
        count = min(20_000, int(along[-1] / (self.cell * 0.7)) + 2)
        where = np.linspace(0.0, along[-1], count)
        line = np.column_stack([np.interp(where, along, points[:, i]) for i in (0, 1)])
        self._stamp(self._counted(line), math.ceil(min(width / 2 / self.cell, sum(self._taken.shape))))

    def take_disc(self, middle: Point, radius: float) -> None:
        """Take the cells of a disc."""
        rows, columns = self._taken.shape
        across = (np.arange(columns) + 0.5) * self.cell + self.bounds[0] - middle[0]
        down = (np.arange(rows) + 0.5) * self.cell + self.bounds[1] - middle[1]
        self._taken[(across[None, :] ** 2 + down[:, None] ** 2) <= radius**2] = 1.0
        self._sums = None

    def take_box(self, box: Rect) -> None:
        """Take the cells of a box."""
        x0, y0, x1, y1 = (int(v) for v in self._cells(np.asarray(box).reshape(2, 2)).ravel())
        self._taken[y0 : y1 + 1, x0 : x1 + 1] = 1.0
        self._sums = None

    def share(self, low: Floats, high: Floats) -> Floats:
        """The taken share of boxes from their upper left to their lower right corners, shape (n, 2) each."""
        if self._sums is None:
            self._sums = np.pad(self._taken.cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))
        first, last = self._cells(low), self._cells(high) + 1
        sums = self._sums
        total = sums[last[:, 1], last[:, 0]] - sums[first[:, 1], last[:, 0]]
        total += sums[first[:, 1], first[:, 0]] - sums[last[:, 1], first[:, 0]]
        share: Floats = total / np.maximum(1, (last - first).prod(axis=1))
        return share

    def taken(self, points: Floats) -> NDArray[np.bool_]:
        """Whether each point, shape (n, 2), lies in a taken cell."""
        cells = self._cells(points)
        return self._taken[cells[:, 1], cells[:, 0]] > 0

    def _stamp(self, cells: NDArray[np.int64], reach: int) -> None:
        """Take a disc of `reach` cells about each cell, row by row: what begins and ends in a row is counted, and
        summed along it."""
        middles = np.unique(cells, axis=0)
        low = np.maximum(middles.min(axis=0) - reach, 0)
        high = np.maximum(middles.max(axis=0) + reach + 1, low)
        part = self._taken[low[1] : high[1], low[0] : high[0]]
        rows, columns = part.shape
        edges = np.zeros((rows, columns + 1))
        for down in range(-reach, reach + 1):
            half = math.floor(math.sqrt((reach + 0.3) ** 2 - down**2))
            row, column = middles[:, 1] - low[1] + down, middles[:, 0] - low[0]
            on = (row >= 0) & (row < rows) & (column + half >= 0) & (column - half < columns)
            np.add.at(edges, (row[on], np.maximum(column[on] - half, 0)), 1.0)
            np.add.at(edges, (row[on], np.minimum(column[on] + half + 1, columns)), -1.0)
        part[np.cumsum(edges, axis=1)[:, :columns] > 0] = 1.0
        self._sums = None

    def _counted(self, points: Floats) -> NDArray[np.int64]:
        """Column and row of each point; one on the line between two cells lies beyond it, whatever its last bit."""
        counted: NDArray[np.int64] = np.floor((points - self.bounds[:2]) / self.cell + 1e-6).astype(np.int64)
        return counted

    def _cells(self, points: Floats) -> NDArray[np.int64]:
        rows, columns = self._taken.shape
        cells: NDArray[np.int64] = np.clip(self._counted(points), 0, np.asarray([columns - 1, rows - 1]))
        return cells
