"""Where words go on a pattern: beside their place, clear of the metal and of one another."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

import numpy as np

from lint.shop.pattern import Extent, Floats, Pen, Point, Stroke, Words, box_of

CELL = 60.0  # mm: the metal is kept by squares of this side, so that a word looks at its own neighbourhood only
CLEAR = 0.8  # mm between words and metal
TURNS = (0.0, 35.0, -35.0, 180.0, 70.0, -70.0, 145.0, -145.0)  # degrees off the way out, in order of liking
FARTHER = (0.0, 2.5, 5.0, 8.0, 12.0, 17.0, 23.0, 30.0, 38.0, 47.0, 57.0)  # mm out, in order of liking
LED = 4.0  # mm: words farther out than this get a leader


class Ground:
    """The ground that words are set on: metal as points with a half width, and the words set so far."""

    def __init__(self, metal: Iterable[tuple[Floats, float]], within: Extent | None = None) -> None:
        self._within = within  # words keep to this where they can, so that a pattern takes no sheet for them alone
        self._cells: dict[tuple[int, int], list[Floats]] = {}
        self._boxes: dict[tuple[int, int], list[Extent]] = {}
        for points, half in metal:
            self.keep_clear(points, half)

    def keep_clear(self, points: Floats, half: float) -> None:
        """No word comes nearer than `half` mm to these points."""
        rows = np.column_stack([points, np.full(len(points), half)])
        keys = np.floor(points / CELL).astype(int)
        cells, which = np.unique(keys, axis=0, return_inverse=True)
        for n, (x, y) in enumerate(cells.tolist()):
            self._cells.setdefault((x, y), []).append(rows[which.ravel() == n])

    def set_down(
        self,
        at: Point,
        out: Point,
        words: str,
        high: float,
        *,
        half: float = 0.0,
        reach: float = 30.0,
        strong: bool = False,
    ) -> tuple[Words, Stroke | None] | None:
        """The words beside `at`, on the side that `out` points to where there is room, with a leader where they
        had to go far; within the bounds where that can be, with a leader that crosses no metal where that can be.
        `half` is how far the metal reaches from `at`. None where no place within `reach` is free.
        """
        near = self._near(at)
        wanted = Words(at=at, words=words, high=high, strong=strong, mark=at, half=half)
        for bounds, clear in ((self._within, True), (self._within, False), (None, False)):
            for placed, way, farther in _places(wanted, out, reach):
                if (bounds is None or _inside(placed, bounds)) and self._free(placed, near):
                    leader = _leader(at, way, half, placed) if farther >= LED else None
                    if leader is None or not clear or not _crosses(leader, near):
                        self.take(placed)
                        return placed, leader
        return None

    def _near(self, at: Point) -> Floats:
        x, y = int(np.floor(at[0] / CELL)), int(np.floor(at[1] / CELL))
        rows = [r for i in (-1, 0, 1) for j in (-1, 0, 1) for r in self._cells.get((x + i, y + j), [])]
        return np.concatenate(rows) if rows else np.zeros((0, 3))

    def _free(self, words: Words, near: Floats) -> bool:
        left, top, right, bottom = box_of(words)
        across = np.maximum(np.maximum(left - near[:, 0], near[:, 0] - right), 0)
        down = np.maximum(np.maximum(top - near[:, 1], near[:, 1] - bottom), 0)
        if bool((np.hypot(across, down) < near[:, 2] + CLEAR).any()):
            return False
        return not any(
            left < b[2] + CLEAR and right > b[0] - CLEAR and top < b[3] + CLEAR and bottom > b[1] - CLEAR
            for b in self._boxes_near(words.at)
        )

    def _boxes_near(self, at: Point) -> list[Extent]:
        x, y = int(np.floor(at[0] / CELL)), int(np.floor(at[1] / CELL))
        return [b for i in (-1, 0, 1) for j in (-1, 0, 1) for b in self._boxes.get((x + i, y + j), [])]

    def take(self, words: Words) -> None:
        """Keep the ground under these words for them."""
        key = int(np.floor(words.at[0] / CELL)), int(np.floor(words.at[1] / CELL))
        self._boxes.setdefault(key, []).append(box_of(words))


def _places(wanted: Words, out: Point, reach: float) -> Iterator[tuple[Words, Point, float]]:
    """Where the words could stand round their place, best first: with the way to them and how far out they are."""
    (x, y), (wide, tall) = wanted.at, wanted.size
    for farther in (step for step in FARTHER if step <= reach):
        for turn in TURNS:
            way = _turned(out, turn)
            push = wanted.half + CLEAR + 0.4 + abs(way[0]) * wide / 2 + abs(way[1]) * tall / 2 + farther
            yield replace(wanted, at=(x + way[0] * push, y + way[1] * push)), way, farther


def _inside(words: Words, bounds: Extent) -> bool:
    left, top, right, bottom = box_of(words)
    return left >= bounds[0] and top >= bounds[1] and right <= bounds[2] and bottom <= bounds[3]


def _turned(way: Point, degrees: float) -> Point:
    angle = np.radians(degrees)
    cos, sin = float(np.cos(angle)), float(np.sin(angle))
    return way[0] * cos - way[1] * sin, way[0] * sin + way[1] * cos


def _crosses(leader: Stroke, near: Floats) -> bool:
    """True where the leader runs over metal, the bar that it starts at excepted."""
    start, end = leader.points
    long = float(np.hypot(*(end - start)))
    if long < 3.0 or not len(near):
        return False
    along = np.linspace(2.0 / long, 1.0, int(long) + 2)[:, None]
    points = start + (end - start) * along
    gaps = np.hypot(near[:, 0] - points[:, :1], near[:, 1] - points[:, 1:])
    return bool((gaps < near[:, 2]).any())


def _leader(at: Point, way: Point, half: float, words: Words) -> Stroke:
    """From the metal's edge to the nearest side of the words' box."""
    left, top, right, bottom = box_of(words)
    start = (at[0] + way[0] * half, at[1] + way[1] * half)
    end = (float(np.clip(start[0], left - 0.5, right + 0.5)), float(np.clip(start[1], top - 0.5, bottom + 0.5)))
    return Stroke(pen=Pen.LEADER, points=np.array([start, end]))
