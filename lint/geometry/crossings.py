"""How often lines lie on one another or cross, counted before anything is measured on them."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.curve import CORNER, Curve
from lint.values import dataclass

Floats = NDArray[np.float64]
Whole = NDArray[np.intp]

PIECE = 12  # chords of a smooth stretch that count as one piece
FEW = 10_000  # chords: so few are counted only where they have corners or ends enough for a heap
SAMPLE = 8  # of a large drawing every eighth piece is held against all others
WHOLE = 256  # pieces of which every one is
BEYOND = 8.0  # times `near`: pieces of one line that lie nearer along it are neighbours, however short they are


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossed:
    """About how many pairs of pieces cross, and the line (by index) that has most of them."""

    pairs: int
    worst: int


@dataclass(frozen=True, slots=True, eq=False)
class _Pieces:
    """Stretches without a corner, of twelve chords at most: each with its line, and where along that it begins and ends
    (mm). `length` is each line's, infinite where it does not close."""

    shapes: NDArray[np.object_]
    owner: Whole
    begin: Floats
    end: Floats
    length: Floats

    def apart(self, a: Whole, b: Whole, near: Floats) -> NDArray[np.bool_]:
        """Whether each two are of different lines, or more than 8 times `near` (mm) apart along their own."""
        owner = self.owner[a]
        between = np.maximum(self.begin[b] - self.end[a], self.begin[a] - self.end[b])
        round_ = self.length[owner] - (np.maximum(self.end[a], self.end[b]) - np.minimum(self.begin[a], self.begin[b]))
        far = np.minimum(between, round_) > np.maximum(BEYOND * near[owner], 1e-6)
        found: NDArray[np.bool_] = (owner != self.owner[b]) | far
        return found


def crossed(lines: Sequence[Curve], near: Sequence[float], most: int) -> Crossed | None:
    """Where the lines have more than `most` pairs of pieces that cross, or lie within `near` mm (one figure for each
    line) of one another: about how many were counted until that was sure. None where there are no more.

    Smooth drawings of few points are taken to have none.
    """
    turns = _corners(lines) if lines else np.zeros(0, dtype=bool)
    cut = int(np.count_nonzero(turns))
    if len(turns) <= FEW and cut * (cut - 1) // 2 <= most:
        return None
    pieces = _pieces(lines, turns)
    tree = shapely.STRtree(pieces.shapes)
    step = max(1, min(SAMPLE, len(pieces.shapes) // WHOLE))
    tried, reach = np.arange(0, len(pieces.shapes), step), np.asarray(near, dtype=np.float64)
    found, by_line = 0, np.zeros(len(lines), dtype=np.int64)
    done, size = 0, 4
    while done < len(tried):
        some = tried[done : done + size]
        a, b = tree.query(pieces.shapes[some], predicate="dwithin", distance=reach[pieces.owner[some]])
        a = some[a]
        kept = pieces.apart(a, b, reach)
        found += int(np.count_nonzero(kept))
        by_line += np.bincount(pieces.owner[a[kept]], minlength=len(lines))
        if found * step > 2 * most:  # each pair is met from both its sides
            return Crossed(pairs=found * step // 2, worst=int(by_line.argmax()))
        done, size = done + size, min(2 * size, 256)  # a heap is told from its first few pieces
    return None


def _corners(lines: Sequence[Curve]) -> NDArray[np.bool_]:
    """For each chord of all lines in turn whether a piece begins there: at a corner, or at the start of a line."""
    turns = []
    for line in lines:
        way = np.diff(line.run, axis=0)
        bend = way[1:].view(np.complex128)[:, 0] * way[:-1].view(np.complex128)[:, 0].conj()
        turns += [[True], bend.real < np.cos(np.radians(CORNER)) * np.abs(bend)]
    return np.concatenate(turns).astype(bool)


def _pieces(lines: Sequence[Curve], corner: NDArray[np.bool_]) -> _Pieces:
    runs = [line.run for line in lines]
    counts = np.array([len(run) for run in runs])
    xy, of = np.concatenate(runs), np.repeat(np.arange(len(runs)), counts)
    station = np.concatenate([line.stations for line in lines])
    chord = np.flatnonzero(of[1:] == of[:-1])  # by its first point; the others lead from one line to the next
    since = np.arange(len(chord)) - np.maximum.accumulate(np.where(corner, np.arange(len(chord)), 0))
    first = since % PIECE == 0
    piece = np.cumsum(first) - 1
    points, owner = np.concatenate([chord[first], chord + 1]), np.concatenate([piece[first], piece])
    order = np.lexsort((points, owner))
    shapes = np.asarray(shapely.linestrings(xy[points[order]], indices=owner[order]), dtype=object)
    last = chord[np.append(np.flatnonzero(first)[1:] - 1, len(chord) - 1)] + 1
    length = np.array([line.length if line.closed else np.inf for line in lines])
    return _Pieces(shapes, of[chord[first]], station[chord[first]], station[last], length)
