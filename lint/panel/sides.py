"""The four straight sides of a ring, and the corners where they cross. mm, degrees."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve
from lint.geometry.fitting import FittedLine, crossing, fit_line
from lint.geometry.ranks import median
from lint.values import dataclass

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Point = tuple[float, float]
One = TypeVar("One")

SIDES = ("top", "right", "bottom", "left")
CORNERS = ("upper left", "upper right", "lower right", "lower left")
_SAMPLES = 1000  # points round the ring: a step of 1 to 3 mm on a panel, enough to fit a side within microns
_SLANT = math.cos(math.radians(25))  # a side may lean this far from the panel's own axes; more is another shape
_STRAIGHT = 0.6  # share of a side that must lie on its line, corners and joints left out
_ON = 0.02  # mm: nearer than this to its line, a point is of the side
_BOWED = 0.002  # of a side's length, half a millimetre at least: what leaves its line by more is no straight run


class NotFourSided(Exception):
    """Why a ring is no four-sided figure."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sides:
    """`lines` run top, right, bottom, left; `corners` clockwise from the upper left; `lengths` are between corners."""

    lines: tuple[FittedLine, FittedLine, FittedLine, FittedLine]
    corners: tuple[Point, Point, Point, Point]
    lengths: tuple[float, float, float, float]

    @property
    def size(self) -> tuple[float, float]:
        """Width and height, each the mean of opposite sides."""
        top, right, bottom, left = self.lengths
        return (top + bottom) / 2, (right + left) / 2

    @property
    def diagonals(self) -> tuple[float, float]:
        """Upper left to lower right, upper right to lower left."""
        a, b, c, d = self.corners
        return math.dist(a, c), math.dist(b, d)

    def angle(self, corner: int) -> float:
        """The angle inside a corner, between the lines fitted to its two sides."""
        before, here, after = (complex(*self.corners[(corner + step) % 4]) for step in (-1, 0, 1))
        return math.degrees(abs(cmath.phase((before - here) / (after - here))))


def four_sides(ring: Curve) -> Sides:
    """The sides of a closed ring, each a line fitted to its straight run. A frame drawn at an angle has its sides
    all the same: the axes are the ring's own. Raises NotFourSided."""
    points, normals = _walk(ring)
    twofold = normals * normals
    turn = cmath.phase((twofold * twofold).mean()) / 4  # a quarter turn more or less is the same axis
    facing = normals * cmath.exp(1j * (math.pi / 2 - turn))  # 1 for what faces up, i for the right
    sides = (facing.real >= _SLANT, facing.imag >= _SLANT, facing.real <= -_SLANT, facing.imag <= -_SLANT)
    lines = [_side(points[side], name) for side, name in zip(sides, SIDES, strict=True)]
    corners = [_meet(lines[k - 1], lines[k]) for k in range(4)]
    lengths = [math.dist(corners[k], corners[(k + 1) % 4]) for k in range(4)]
    step = ring.length / _SAMPLES
    for line, length, name in zip(lines, lengths, SIDES, strict=True):
        on = np.count_nonzero(line.distances(points) <= max(0.5, _BOWED * length)) * step
        if on < _STRAIGHT * length:
            raise NotFourSided(f"its {name} side is not one straight run")
    return Sides(lines=_four(lines), corners=_four(corners), lengths=_four(lengths))


def _four(of: Sequence[One]) -> tuple[One, One, One, One]:
    first, second, third, fourth = of
    return first, second, third, fourth


def _walk(ring: Curve) -> tuple[Floats, Complexes]:
    """Points on equal steps round the ring, and the outward normal x + iy of the chord each lies on."""
    s = (np.arange(_SAMPLES) + 0.5) * ring.length / _SAMPLES
    chord = np.minimum(np.searchsorted(ring.stations, s, side="right") - 1, len(ring.points) - 1)
    path = ring.path - ring.path[0]
    chords = path[1:] - path[:-1]
    clockwise = (path[:-1].conj() * path[1:]).imag.sum() > 0  # on the page, y down
    return ring.at(s), (chords / np.abs(chords) * (-1j if clockwise else 1j))[chord]


def _side(points: Floats, name: str) -> FittedLine:
    """A line through the points of one side; what lies off it (notches, steps at joints) is left out."""
    if len(points) < 8:
        raise NotFourSided(f"it has no {name} side")
    line = fit_line(points)
    if line.off <= _ON:
        return line
    for _ in range(6):
        off = line.distances(points)
        kept = points[off <= max(_ON, 2.5 * median(off))]
        line = fit_line(kept if len(kept) >= 8 else points)
        if len(kept) == len(points):
            break
    return line


def _meet(a: FittedLine, b: FittedLine) -> Point:
    at = crossing(a, b)
    if at is None:
        raise NotFourSided("two of its sides do not meet")
    return at
