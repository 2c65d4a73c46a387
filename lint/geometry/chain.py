"""A chain of cubic Bézier pieces: one subpath as it was drawn, exact under any affine transform."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve, curve
from lint.values import dataclass

Floats = NDArray[np.float64]

# The most chords that one piece is cut into. 2^14 chords hold 0.01 mm on a single piece kilometres long; a piece
# beyond that is no grille, and without a bound a stray 1e300 would fill the memory.
MOST_CHORDS = 1 << 14

# Of the first and the last chord of an open chain, the share after which it has one more point: a butt cap stands
# across the curve's end, and across a whole chord it would stand some degrees aside (0.2 mm at the edge of a 10 mm bar
# that ends on a radius of 11 mm).
TIP = 1 / 64


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
        """Points on the chain such that no chord leaves it by more than `accuracy`, in the chain's own unit.

        Each piece is cut into equal steps of its parameter, as many as the bound on its second derivative asks
        (Wang 1984: n^2 = 6/8 M / accuracy, M the largest second difference of the control points; the bound is
        never under the true need). A piece gets 2^14 chords at most. Raises ValueError where the chain has fewer
        than two distinct points, a number is not finite, or `accuracy` is not positive.
        """
        if not accuracy > 0:
            raise ValueError(f"an accuracy must be over 0, not {accuracy}")
        if not np.isfinite(self.cubics).all() or len(self.cubics) == 0:
            raise ValueError("a chain needs at least one piece, of finite numbers")
        chords = _chords(self.cubics, accuracy)
        which = np.repeat(np.arange(len(chords)), chords)
        first = np.cumsum(chords) - chords
        t = ((np.arange(len(which)) - first[which] + 1) / chords[which])[:, None]
        u = 1 - t
        p = self.cubics[which]
        points = u * u * u * p[:, 0] + 3 * u * u * t * p[:, 1] + 3 * u * t * t * p[:, 2] + t * t * t * p[:, 3]
        ends = first + chords - 1
        points[ends] = self.cubics[:, 3]  # a piece ends exactly where it was drawn to end
        if self.closed:
            return curve(np.concatenate([self.cubics[0, :1], points]), True)
        tips = [_tip(self.cubics[0], int(chords[0])), _tip(self.cubics[-1, ::-1], int(chords[-1]))]
        return curve(np.concatenate([self.cubics[0, :1], tips[0], points[:-1], tips[1], points[-1:]]))


def _chords(cubics: Floats, accuracy: float) -> NDArray[np.int64]:
    first = cubics[:, 1:] - cubics[:, :-1]
    second = first[:, 1:] - first[:, :-1]
    most = np.hypot(second[..., 0], second[..., 1]).max(axis=1)
    needed = np.ceil(np.sqrt(0.75 * most / accuracy))
    chords: NDArray[np.int64] = np.clip(needed, 1, MOST_CHORDS).astype(np.int64)
    return chords


def _tip(cubic: Floats, chords: int) -> Floats:
    """The point of a bent piece (4, 2) close by its start: shape (1, 2), or (0, 2) where the piece is straight."""
    first = cubic[1:] - cubic[:-1]
    if np.abs(first[1:] - first[:-1]).max() <= 1e-9 * np.abs(first).max():
        return np.zeros((0, 2))
    t = TIP / chords
    u = 1 - t
    return (np.array([u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t]) @ cubic)[None]
