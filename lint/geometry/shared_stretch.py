"""The stretches that two curves have in common where their ends may differ."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve
from lint.geometry.ranks import medians

Floats = NDArray[np.float64]

# Places along a curve at which headings are compared, and places tried for the one on the other.
PLACES = 128
TRIED = 33


def shared_stretch(one: Curve, other: Curve, left_out: float) -> tuple[Curve, Curve]:
    """The parts of two open curves to be laid on one another when `left_out` mm at each end of each are no matter.

    Of the shorter curve all but `left_out` at each end; of the other the stretch of the same length that bends most
    like it, run either way, turned over or not. So a bar that goes on a little farther into its end than its partner
    still covers it. Where the lengths differ by more than twice what is left out, each is cut by itself.
    """
    short, long = (one, other) if one.length <= other.length else (other, one)
    left_out = min(left_out, short.length / 4)
    core = short.piece(left_out, short.length - left_out)
    if long.length - short.length > 2 * left_out + 1e-9:
        match = long.piece(left_out, long.length - left_out)
    else:
        start = _most_alike(core, long)
        match = long.piece(start, start + core.length)
    return (core, match) if short is one else (match, core)


def even_part(line: Curve, left_out: float, *, half_turn: bool) -> Curve:
    """The part of an open curve that lies evenly about its own middle, where up to `left_out` mm at each end is no
    matter: by half turn for an S, else turned over, as a C's halves are."""
    left_out = min(left_out, line.length / 4)
    core = line.piece(left_out, line.length - left_out)
    sign = 1.0 if half_turn else -1.0
    start = _best_start([sign * _headings(core.reversed())], core.length, line)
    middle = (start + line.length - left_out) / 2
    half = min(middle, line.length - middle) - left_out
    return line.piece(middle - half, middle + half)


def _most_alike(core: Curve, whole: Curve) -> float:
    """Where on `whole` (arc length, mm) the stretch begins that bends most like `core`."""
    ways = [sign * way for way in (_headings(core), _headings(core.reversed())) for sign in (1.0, -1.0)]
    return _best_start(ways, core.length, whole)


def _best_start(ways: Sequence[Floats], length: float, whole: Curve) -> float:
    """Where on `whole` one of the headings over `length` mm lies best, to a thousandth of the play there is."""
    track = _headings(whole, 8 * PLACES)
    play = whole.length - length
    laid = [_least_apart(way, length, track, whole.length, (0.0, play)) for way in ways]
    (_, start), way = min(zip(laid, ways, strict=True), key=lambda found: found[0][0])
    step = play / (TRIED - 1)
    for _ in range(2):
        near = (max(start - step, 0.0), min(start + step, play))
        _, start = _least_apart(way, length, track, whole.length, near)
        step = (near[1] - near[0]) / (TRIED - 1)
    return start


def _least_apart(
    way: Floats, length: float, track: Floats, whole: float, within: tuple[float, float]
) -> tuple[float, float]:
    """(mean turn between the two, rad; start) where headings `way` over `length` mm lie best on `track` (`whole` mm).
    The mean of the sizes, not of the squares: what is left of an end's shape must not pull the rest aside."""
    starts = np.linspace(*within, TRIED)
    places = starts[:, None] + np.linspace(0.0, length, len(way))
    turn = np.interp(places, np.linspace(0.0, whole, len(track)), track) - way
    apart = np.abs(turn - medians(turn)[:, None]).mean(axis=1)
    best = int(apart.argmin())
    return float(apart[best]), float(starts[best])


def _headings(line: Curve, places: int = PLACES) -> Floats:
    """The heading (radians, unwrapped) at even steps along a curve, both ends among them."""
    way = line.tangent(np.linspace(0.0, line.length, places + 1))
    return np.unwrap(np.arctan2(way[:, 1], way[:, 0]))
