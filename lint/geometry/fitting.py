"""Lines and circles through points, by least squares."""

from __future__ import annotations

import cmath
import math

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Complexes, as_complex
from lint.values import dataclass

Floats = NDArray[np.float64]

# Points whose circle would be over a million times their own spread are on a line: rounding alone bends so much.
STRAIGHT = 1e-6

# Of the matrix of Pratt's condition B^2 + C^2 - 4 A D = 1.
_BINDING_INVERSE = np.array([[0, 0, 0, -0.5], [0, 1, 0, 0], [0, 0, 1, 0], [-0.5, 0, 0, 0]])


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedLine:
    """A line through `at` along the unit vector `along`; `off` is the largest distance of a point from it, mm."""

    at: tuple[float, float]
    along: tuple[float, float]
    off: float

    def distances(self, points: Floats) -> Floats:
        """How far each of `points` (n, 2) lies from the line, mm."""
        far: Floats = np.abs(((as_complex(points) - complex(*self.at)) * complex(*self.along).conjugate()).imag)
        return far


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedCircle:
    """Centre and radius in mm; `off` is the largest distance of a point from the circle, mm."""

    x: float
    y: float
    radius: float
    off: float


def fit_line(points: Floats) -> FittedLine:
    """The line with the least sum of squared distances (principal axis). Raises ValueError under two points, or
    where all points are one."""
    path = as_complex(points)
    middle = complex(path.sum()) / max(len(path), 1)
    rest = path - middle
    if len(points) < 2 or not np.abs(rest).max() > 0:
        raise ValueError("a line needs two points that are apart")
    # The sum of squares has twice the direction of the principal axis: xx - yy + 2i xy of the scatter.
    along = cmath.exp(0.5j * cmath.phase((rest * rest).sum()))
    off = float(np.abs((rest * along.conjugate()).imag).max())
    return FittedLine(at=(middle.real, middle.imag), along=(along.real, along.imag), off=off)


def fit_circle(points: Floats) -> FittedCircle:
    """Circle by least squares (Pratt 1987, then one Gauss-Newton polish). Raises ValueError where the points are
    fewer than three or lie on a line.

    Pratt, "Direct least-squares fitting of algebraic surfaces", SIGGRAPH 1987: A z + B x + C y + D = 0 with
    z = x^2 + y^2 under B^2 + C^2 - 4 A D = 1, by the singular value decomposition (Chernov, "Circular and linear
    regression", 2010, 5.7). The polish takes the true distances.
    """
    if len(points) < 3:
        raise ValueError("a circle needs three points")
    path = as_complex(points)
    middle = complex(path.sum()) / len(path)
    around = path - middle
    size = float(np.abs(around).max())
    if not size > 0:
        raise ValueError("a circle needs three points that are apart")
    unit = around / size
    centre, radius = _polished(unit, *_pratt(unit))
    off = float(np.abs(np.abs(unit - centre) - radius).max())
    at = middle + size * centre
    return FittedCircle(x=at.real, y=at.imag, radius=size * radius, off=size * off)


def _pratt(p: Complexes) -> tuple[complex, float]:
    """Centre and radius by Pratt's fit of points about their mean, of size 1. ValueError for points on a line."""
    rows = np.ones((len(p), 4))
    rows[:, 1], rows[:, 2] = p.real, p.imag
    rows[:, 0] = p.real**2 + p.imag**2
    _, spread, right = np.linalg.svd(rows, full_matrices=len(rows) < 4)
    if len(spread) > 3 and spread[3] > 1e-12 * spread[0]:
        half = right.T * spread @ right
        values, vectors = np.linalg.eigh(half @ _BINDING_INVERSE @ half)
        positive = int((values > 0).argmax())  # the least positive value is Pratt's circle
        a, b, c, d = np.linalg.solve(half, vectors[:, positive]).tolist()
    else:
        a, b, c, d = right[3].tolist()  # all points on one circle
    if abs(a) < STRAIGHT * max(abs(b), abs(c), abs(d)):
        raise ValueError("the points lie on a line")
    square = (b * b + c * c - 4 * a * d) / (4 * a * a)
    return complex(-b, -c) / (2 * a), math.sqrt(max(square, 0.0))


def _polished(p: Complexes, centre: complex, radius: float) -> tuple[complex, float]:
    """One Gauss-Newton step on the true distances from the circle."""
    out = p - centre
    far = np.abs(out)
    if far.min() <= 0:
        return centre, radius
    slopes = np.full((len(p), 3), -1.0)
    slopes[:, 0], slopes[:, 1] = -out.real / far, -out.imag / far
    dx, dy, grown = np.linalg.lstsq(slopes, radius - far, rcond=None)[0].tolist()
    return centre + complex(dx, dy), radius + grown


def crossing(a: FittedLine, b: FittedLine) -> tuple[float, float] | None:
    """Where two lines cross, or None where they are parallel within 1e-9 rad."""
    sine = a.along[0] * b.along[1] - a.along[1] * b.along[0]
    if abs(sine) < 1e-9:
        return None
    between = (b.at[0] - a.at[0], b.at[1] - a.at[1])
    far = (between[0] * b.along[1] - between[1] * b.along[0]) / sine
    return a.at[0] + far * a.along[0], a.at[1] + far * a.along[1]
