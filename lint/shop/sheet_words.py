"""Which words stand on which sheet: whole wherever that can be."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from lint.shop.lettering import Ground
from lint.shop.pattern import Extent, Floats, Pattern, Pen, Point, Words, box_of, dense
from lint.shop.tiling import Tile, Tiled

Bools = NDArray[np.bool_]
EDGE = 1.0  # mm: words keep this far from a sheet's edge where they are set anew


def words_by_sheet(tiles: Tiled) -> dict[str, tuple[Words, ...]]:
    """For each printed sheet, by name, the words it shows: those that lie whole on it, and those that lie whole on no
    sheet and whose mark it shows, set anew where they are clear of its edge."""
    words, sheets = tiles.pattern.words, tiles.printed
    if not words:
        return {tile.name: () for tile in sheets}
    boxes = np.array([box_of(one) for one in words])
    marks = np.array([one.mark or one.at for one in words])
    shows = np.array([tile.shows for tile in sheets])
    whole: Bools = np.logical_and(_within(boxes[:, None, :2], shows), _within(boxes[:, None, 2:], shows))
    cut: Bools = np.logical_and(_within(marks[:, None, :], shows), ~whole.any(axis=1, keepdims=True))
    extents = _extents(tiles.pattern)
    told = {}
    for n, tile in enumerate(sheets):
        here = [words[i] for i in np.flatnonzero(whole[:, n])]
        anew = [words[i] for i in np.flatnonzero(cut[:, n])]
        told[tile.name] = (*here, *_set_anew(anew, here, tiles.pattern, extents, tile))
    return told


def _within(points: Floats, shows: Floats) -> Bools:
    """(words, sheets): True where a sheet shows the word's point."""
    over = np.asarray(points >= shows[None, :, :2], dtype=np.bool_)
    under = np.asarray(points <= shows[None, :, 2:], dtype=np.bool_)
    return np.asarray((over & under).all(axis=2), dtype=np.bool_)


def _extents(pattern: Pattern) -> Floats:
    """Left, top, right, bottom of each stroke, (n, 4)."""
    return np.array([[*stroke.points.min(axis=0), *stroke.points.max(axis=0)] for stroke in pattern.strokes])


def _set_anew(cut: list[Words], here: list[Words], pattern: Pattern, extents: Floats, tile: Tile) -> list[Words]:
    """Words that the sheet's edge would cut, set where they lie whole and clear, else moved in."""
    if not cut:
        return []
    left, top, right, bottom = tile.shows
    inside = (left + EDGE, top + EDGE, right - EDGE, bottom - EDGE)
    on = (extents[:, 0] <= right) & (extents[:, 2] >= left) & (extents[:, 1] <= bottom) & (extents[:, 3] >= top)
    lines = [pattern.strokes[i] for i in np.flatnonzero(on)]
    ground = Ground(((dense(line.points, line.closed), 0.3) for line in lines if line.pen is not Pen.LEADER), inside)
    for words in here:
        ground.take(words)
    return [_anew(words, ground, inside) for words in cut]


def _anew(words: Words, ground: Ground, inside: Extent) -> Words:
    mark = words.mark or words.at
    out = np.subtract(words.at, mark) / max(float(np.hypot(*np.subtract(words.at, mark))), 1e-9)
    way = (float(out[0]), float(out[1]))
    placed = ground.set_down(mark, way, words.words, words.high, half=words.half, strong=words.strong)
    if placed is not None and _whole(placed[0], inside):
        return placed[0]
    return replace(words, at=_moved_in(words, inside))


def _whole(words: Words, shows: Extent) -> bool:
    box = box_of(words)
    return box[0] >= shows[0] and box[1] >= shows[1] and box[2] <= shows[2] and box[3] <= shows[3]


def _moved_in(words: Words, shows: Extent) -> Point:
    wide, tall = words.size
    (x, y), (left, top, right, bottom) = words.at, shows
    return min(max(x, left + wide / 2), right - wide / 2), min(max(y, top + tall / 2), bottom - tall / 2)
