"""A chain of cubic Bézier pieces: one subpath as it was drawn, exact under any affine transform."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve, curves
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
        return flattened([self], np.array([accuracy]))[0]


def flattened(chains: Sequence[Chain], accuracies: Floats) -> list[Curve]:
    """`Chain.flattened` for many chains in one go: each of one finite piece at least, each at its own accuracy."""
    cubics = np.concatenate([chain.cubics for chain in chains])
    pieces = np.array([len(chain.cubics) for chain in chains])
    closed = np.array([chain.closed for chain in chains])
    last = np.cumsum(pieces) - 1
    first = last - pieces + 1
    chords = _chords(cubics, np.repeat(accuracies, pieces))
    # In front of each chain stands its start; open ones that begin or end bent have a point more close by, as closed
    # ones that do not end on their start have it again.
    one, other = (tips[~closed & _bent(cubics[tips])] for tips in (first, last))
    shut = np.flatnonzero(closed & (cubics[last, 3] != cubics[first, 0]).any(axis=1))
    before, after = np.bincount(first, minlength=len(cubics)), np.bincount(last[shut], minlength=len(cubics))
    before[one] += 1
    after[other] += 1
    counts = before + chords + after
    which, ends = np.repeat(np.arange(len(counts)), counts), np.cumsum(counts)
    t = (np.arange(len(which)) - (ends - counts + before)[which] + 1) / chords[which]
    t[(ends - counts)[first]] = 0.0
    t[(ends - counts)[one] + 1] = TIP / chords[one]
    t[ends[other] - 2], t[ends[other] - 1] = 1 - TIP / chords[other], 1.0
    which[ends[last[shut]] - 1], t[ends[last[shut]] - 1] = first[shut], 0.0
    return curves(_points(cubics, which, t), ends[last], closed)


def _points(cubics: Floats, which: NDArray[np.int64], t: Floats) -> Floats:
    """The point of the cubic `which` (m,) of n (n, 4, 2) at the parameter `t` (m,): shape (m, 2)."""
    a, b, c, d = np.take(cubics.transpose(1, 2, 0), which, axis=2)  # long rows, for numpy is slow along short ones
    u = 1 - t
    at: Floats = u * u * u * a + 3 * u * u * t * b + 3 * u * t * t * c + t * t * t * d
    return at.T


def _chords(cubics: Floats, accuracies: Floats) -> NDArray[np.int64]:
    _, second = _differences(cubics)
    needed = np.ceil(np.sqrt(0.75 * second.max(axis=0) / accuracies))
    chords: NDArray[np.int64] = np.minimum(np.maximum(needed, 1), MOST_CHORDS).astype(np.int64)
    return chords


def _bent(cubics: Floats) -> NDArray[np.bool_]:
    """Which pieces (n, 4, 2) are not straight."""
    first, second = _differences(cubics)
    bent: NDArray[np.bool_] = second.max(axis=0) > 1e-9 * first.max(axis=0)
    return bent


def _differences(cubics: Floats) -> tuple[Floats, Floats]:
    """How large the first (3, n) and the second differences (2, n) of the control points of n cubics are."""
    points = cubics.view(np.complex128)[..., 0].T  # long rows, for numpy is slow along short ones
    first = points[1:] - points[:-1]
    return np.abs(first), np.abs(first[1:] - first[:-1])
