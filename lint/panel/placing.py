"""From page units to real millimetres, and back to nothing else: the panel never looks at the page again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from lint.drawing.drawn import Drawn
from lint.geometry.chain import Chain, flattened
from lint.geometry.curve import Curve
from lint.values import dataclass

Point = tuple[float, float]

ACCURACY = 0.01  # mm: no chord of a flattened path leaves the drawn curve by more
FINE = 2e-4  # of a shape's size: a rivet is flattened finer than a scroll, so that its diameter holds
CLOSED = 1e-3  # mm: a path that ends this near its start is closed, with or without a z
_ENDLESS = 1e300  # mm: a path so large has points that overflow
_AT_ONCE = 64  # subpaths made in one go, whose points must fit in the memory several times


@dataclass(frozen=True, slots=True, kw_only=True)
class Placing:
    """`zero` is the page unit that becomes (0, 0), `mm` the real millimetres of one page unit; `laid` has the lines of
    objects that were placed together, which is quicker, by the identity of each."""

    zero: Point
    mm: float
    laid: Mapping[int, list[Curve]] | None = None

    def laying(self, drawn: Sequence[Drawn]) -> Placing:
        """The same, with the lines of all these objects made."""
        return Placing(zero=self.zero, mm=self.mm, laid=dict(zip(map(id, drawn), self.lines(drawn), strict=True)))

    def point(self, at: Point) -> Point:
        """A point in page units as mm."""
        return ((at[0] - self.zero[0]) * self.mm, (at[1] - self.zero[1]) * self.mm)

    def extent(self, box: tuple[float, float, float, float]) -> tuple[float, float, float, float]:
        """A box in page units as mm."""
        return (*self.point(box[:2]), *self.point(box[2:]))

    def lines(self, drawn: Sequence[Drawn]) -> list[list[Curve]]:
        """The subpaths of each object as points in mm, closed where they end on their start, with or without a z. One
        of which nothing is left (a stray moveto, a dot) is left out."""
        if self.laid and all(id(one) in self.laid for one in drawn):
            return [self.laid[id(one)] for one in drawn]
        subpaths = [(k, chain) for k, one in enumerate(drawn) for chain in one.chains if len(chain.cubics)]
        found: list[list[Curve]] = [[] for _ in drawn]
        for start in range(0, len(subpaths), _AT_ONCE):
            for k, line in self._curves(subpaths[start : start + _AT_ONCE]):
                found[k].append(line)
        return found

    def _curves(self, subpaths: Sequence[tuple[int, Chain]]) -> Iterator[tuple[int, Curve]]:
        drawn = np.concatenate([chain.cubics for _, chain in subpaths]).view(np.complex128)[..., 0]
        moved = (drawn - complex(*self.zero)) * self.mm
        pieces = np.array([len(chain.cubics) for _, chain in subpaths])
        ends = np.cumsum(pieces)
        starts = ends - pieces
        spreads = [
            np.maximum.reduceat(along, 4 * starts) - np.minimum.reduceat(along, 4 * starts)
            for along in (moved.real.ravel(), moved.imag.ravel())
        ]
        size = np.maximum(*spreads)
        shut = np.abs(moved[starts, 0] - moved[ends - 1, 3]) <= CLOSED
        kept = np.flatnonzero((size >= ACCURACY) & (size < _ENDLESS)).tolist()
        if kept:
            cubics = moved.view(np.float64).reshape(-1, 4, 2)
            chains = [Chain(cubics[starts[k] : ends[k]], subpaths[k][1].closed or bool(shut[k])) for k in kept]
            lines = flattened(chains, np.minimum(ACCURACY, FINE * size[kept]))
            yield from zip((subpaths[k][0] for k in kept), lines, strict=True)
