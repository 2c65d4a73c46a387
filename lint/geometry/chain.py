"""A chain of cubic Bézier pieces: one subpath as it was drawn, exact under any affine transform."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Chain:
    """`cubics` has shape (n, 4, 2): n pieces of four control points, each starting where the last ended.

    Straight pieces carry their control points at thirds. Arcs are turned into cubics of at most 45 degrees
    by whoever builds the chain (radius error under 5e-6 R). `closed` says that it ends where it began.
    """

    cubics: Floats
    closed: bool

    def transformed(self, matrix: Floats) -> Chain:
        """The chain under a 2 x 3 affine matrix [[a, c, e], [b, d, f]] (SVG's order of letters)."""
        moved = self.cubics @ matrix[:, :2].T + matrix[:, 2]
        return Chain(moved, self.closed)

    def flattened(self, accuracy: float) -> Curve:
        """Points on the chain such that no chord leaves it by more than `accuracy`, in the chain's own unit."""
        raise NotImplementedError
