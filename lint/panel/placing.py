"""From page units to real millimetres, and back to nothing else: the panel never looks at the page again."""

from __future__ import annotations

import numpy as np

from lint.geometry.chain import Chain
from lint.geometry.curve import Curve
from lint.values import dataclass

Point = tuple[float, float]

ACCURACY = 0.01  # mm: no chord of a flattened path leaves the drawn curve by more
FINE = 2e-4  # of a shape's size: a rivet is flattened finer than a scroll, so that its diameter holds
CLOSED = 1e-3  # mm: a path that ends this near its start is closed, with or without a z


@dataclass(frozen=True, slots=True, kw_only=True)
class Placing:
    """`zero` is the page unit that becomes (0, 0), `mm` the real millimetres of one page unit."""

    zero: Point
    mm: float

    def point(self, at: Point) -> Point:
        """A point in page units as mm."""
        return ((at[0] - self.zero[0]) * self.mm, (at[1] - self.zero[1]) * self.mm)

    def extent(self, box: tuple[float, float, float, float]) -> tuple[float, float, float, float]:
        """A box in page units as mm."""
        return (*self.point(box[:2]), *self.point(box[2:]))

    def curve(self, chain: Chain) -> Curve | None:
        """A chain in page units as points in mm, closed where it ends on its start, with or without a z; None where
        nothing of it is left (a stray moveto, a dot)."""
        moved = (chain.cubics - np.array(self.zero)) * self.mm
        size = float(np.ptp(moved.reshape(-1, 2), axis=0).max()) if len(moved) else 0.0
        if size < ACCURACY:
            return None
        shut = chain.closed or float(np.hypot(*(moved[-1, 3] - moved[0, 0]))) <= CLOSED
        try:
            return Chain(moved, shut).flattened(min(ACCURACY, FINE * size))
        except ValueError:
            return None
