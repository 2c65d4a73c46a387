"""Lines and circles through points, by least squares."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedLine:
    """A line through `at` along the unit vector `along`; `off` is the largest distance of a point from it, mm."""

    at: tuple[float, float]
    along: tuple[float, float]
    off: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedCircle:
    """Centre and radius in mm; `off` is the largest distance of a point from the circle, mm."""

    x: float
    y: float
    radius: float
    off: float


def fit_line(points: Floats) -> FittedLine:
    """The line with the least sum of squared distances (principal axis). Raises ValueError under two points."""
    raise NotImplementedError


def fit_circle(points: Floats) -> FittedCircle:
    """Circle by least squares (Pratt 1987, then one Gauss-Newton polish). Raises ValueError where the points are
    fewer than three or lie on a line."""
    raise NotImplementedError


def crossing(a: FittedLine, b: FittedLine) -> tuple[float, float] | None:
    """Where two lines cross, or None where they are parallel within 1e-9 rad."""
    raise NotImplementedError


def angle_between(a: FittedLine, b: FittedLine) -> float:
    """The angle between two lines in degrees, 0..90."""
    raise NotImplementedError
