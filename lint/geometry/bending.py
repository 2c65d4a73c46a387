"""How a curve bends: curvature on equal steps of arc length, turning, kinks, flats, backward steps."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lint.geometry.curve import Curve

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Bending:
    """`s` (mm) and signed `curvature` (1/mm, positive where it turns clockwise on the page, y down)."""

    s: Floats
    curvature: Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Kink:
    """A break of the tangent: where along the curve (mm), where in the plane, by how many degrees."""

    s: float
    at: tuple[float, float]
    angle: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch of the curve from arc length `start` to `end` (mm) with the figure that makes it one."""

    start: float
    end: float
    figure: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Turning:
    """Signed turning split at changes of sign. `lobes` are (start s, end s, degrees signed) of each run of one
    sign, runs under the noise limit merged away: one lobe is a C, two are an S."""

    lobes: tuple[tuple[float, float, float], ...]


def bending(curve: Curve, *, window: float) -> Bending:
    """Curvature on equal steps of arc length, smoothed over `window` mm (the bar's width)."""
    raise NotImplementedError


def turning(curve: Curve, *, noise: float = 20.0) -> Turning:
    """Total turning by sign; a run of less than `noise` degrees is taken as the unsteadiness of a hand."""
    raise NotImplementedError


def kinks(curve: Curve, *, limit: float = 5.0, window: float) -> tuple[Kink, ...]:
    """Tangent breaks over `limit` degrees that the bend around them, measured over `window` mm, does not explain."""
    raise NotImplementedError


def flats(curve: Curve, *, window: float) -> tuple[Stretch, ...]:
    """Stretches within a curl where the curvature falls to nearly nothing and rises again; figure = length, mm.
    The straight or slack middle of a scroll (either side of an S's change of sign, a C's back) is no flat."""
    raise NotImplementedError


def backward_steps(curve: Curve, *, window: float) -> tuple[Stretch, ...]:
    """Stretches where a curl, from the scroll's middle to its end, opens again instead of tightening;
    figure = the drop of curvature as a share of the curvature before it (0..1)."""
    raise NotImplementedError


def tightest(curve: Curve, *, window: float) -> tuple[float, float]:
    """(smallest radius of the centreline in mm, arc length where)."""
    raise NotImplementedError
